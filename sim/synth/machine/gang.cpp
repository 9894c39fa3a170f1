#include "synth/machine/gang.hpp"

#include <algorithm>
#include <utility>

#include "synth/land/path.hpp"

namespace podrate::sim {
namespace {

// A driver takes one of the next few free bouts: the field is worked from one side, machine behind machine.
constexpr std::size_t kNearest = 4;

}  // namespace

Gang::Gang(const Scenario& scenario) : scenario_(scenario), trailers_(scenario.trailers, scenario.seed) {
    double width_m = 12.0;  // bouts are laid as wide as the narrowest machine, less its overlap
    for (const ScenarioMachine& machine : scenario.machines)
        width_m = std::min(width_m, std::max(0.5 * machine.width_m, machine.width_m - machine.overlap_m));
    for (const ScenarioField& field : scenario.fields) {
        crops_.emplace_back(field, scenario.seed, true_ripening(scenario, field));
        bouts_.push_back(bouts_of(field, width_m));
    }
}

void Gang::update(double time_s) {
    while (moves_done_ < scenario_.moves.size() && time_s >= scenario_.moves[moves_done_].at_s) {
        const std::string& name = scenario_.moves[moves_done_++].to_field;
        for (std::size_t i = 0; i < scenario_.fields.size(); ++i) {
            if (scenario_.fields[i].name == name) field_ = i;
        }
    }
    const auto free = [this](std::size_t i) {
        return std::any_of(bouts_[i].begin(), bouts_[i].end(), [](const Bout& bout) { return !bout.taken; });
    };
    for (std::size_t tried = 0; tried < bouts_.size() && !free(field_); ++tried)
        field_ = (field_ + 1) % bouts_.size();
}

std::optional<Bout> Gang::take_bout(std::size_t field, EastNorth place) {
    Bout* best = nullptr;
    double best_m = 0.0;
    std::size_t looked_at = 0;
    for (Bout& bout : bouts_[field]) {
        if (bout.taken) continue;
        if (++looked_at > std::max(kNearest, scenario_.machines.size())) break;
        const double near_m =
            std::min(distance_between_m(place, bout.from), distance_between_m(place, bout.to));
        if (best == nullptr || near_m < best_m) {
            best = &bout;
            best_m = near_m;
        }
    }
    if (best == nullptr) return std::nullopt;
    best->taken = true;
    Bout taken = *best;
    if (distance_between_m(place, taken.to) < distance_between_m(place, taken.from))
        std::swap(taken.from, taken.to);
    return taken;
}

}  // namespace podrate::sim
