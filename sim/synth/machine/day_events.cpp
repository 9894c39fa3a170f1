#include "synth/machine/day_events.hpp"

#include <algorithm>

#include "podrate/math/elementary.hpp"
#include "synth/random.hpp"

namespace podrate::sim {
namespace {

constexpr double kShortestS = 10.0;

template <class Timed>
void sort_by_time(std::vector<Timed>& list) {
    std::sort(list.begin(), list.end(), [](const Timed& a, const Timed& b) { return a.at_s < b.at_s; });
}

}  // namespace

DayEvents::DayEvents(const Scenario& scenario, const ScenarioMachine& machine) : shifts_(scenario.shifts) {
    for (const ScenarioEvent& event : scenario.events) {
        if (event.machine != machine.id) continue;
        (event.kind == ScenarioEvent::Kind::rest ? rests_ : stops_).push_back(event);
    }
    Random random(scenario.seed, "events " + machine.id);
    const auto lasts_s = [&](double mean_s, double ln_sd) {
        if (ln_sd <= 0.0) return random.exponential(mean_s);
        return mean_s * math::exp(ln_sd * random.normal() - 0.5 * ln_sd * ln_sd);
    };
    const auto draw = [&](ScenarioEvent::Kind kind, double per_h, double mean_s, double ln_sd) {
        if (per_h <= 0.0) return;
        for (double at_s = random.exponential(3600.0 / per_h); at_s < scenario.hours * 3600.0;
             at_s += random.exponential(3600.0 / per_h)) {
            stops_.push_back(
                {kind, machine.id, at_s, kShortestS + lasts_s(std::max(mean_s - kShortestS, 0.0), ln_sd)});
        }
    };
    draw(ScenarioEvent::Kind::pause_in_crop, machine.driver.pauses_per_h, machine.driver.pause_s, 0.0);
    draw(ScenarioEvent::Kind::breakdown, machine.driver.breakdowns_per_h, machine.driver.breakdown_s,
         machine.driver.breakdown_ln_sd);
    sort_by_time(stops_);
    sort_by_time(rests_);
    sort_by_time(shifts_);
}

const ScenarioEvent* DayEvents::stop_due(double time_s) const {
    const bool due = next_stop_ < stops_.size() && time_s >= stops_[next_stop_].at_s;
    return due ? &stops_[next_stop_] : nullptr;
}

double DayEvents::take_rest(double time_s, bool& hands_over) {
    double for_s = 0.0;
    hands_over = false;
    if (next_rest_ < rests_.size() && time_s >= rests_[next_rest_].at_s) for_s = rests_[next_rest_++].for_s;
    if (next_shift_ < shifts_.size() && time_s >= shifts_[next_shift_].at_s) {
        for_s = std::max(for_s, shifts_[next_shift_++].for_s);
        hands_over = true;
    }
    return for_s;
}

}  // namespace podrate::sim
