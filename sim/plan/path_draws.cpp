#include "plan/path_draws.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kTipS = 45.0;       // to pour and lower; common practice, no source
constexpr double kTipsBefore = 3.0;  // what was thought of waits beforehand counts as so many
// Waits come in spells, so that a third as many would say as much: a path draws from so many of them.
constexpr std::size_t kTipsAlike = 3;
constexpr std::size_t kFewestTips = 4;
constexpr std::size_t kMostTips = 24;

double drawn_mean(const StopLength& length, PathRandom& random) {
    return length.ln_mean_s + length.ln_sd / std::sqrt(length.weight) * random.normal();
}

// The bootstrap (Efron 1979) of fewer than were seen, so that a path's waits differ from another's as the
// waits of another day like this one would.
void draw_tips(const GangModel& model, PathRandom& random, std::vector<DrawnTip>& tips) {
    const std::size_t seen = model.tips.size();
    const double before = kTipsBefore / (kTipsBefore + static_cast<double>(seen));
    const std::size_t count = std::clamp(seen / kTipsAlike, kFewestTips, kMostTips);
    for (std::size_t i = 0; i < count; ++i) {
        if (random.uniform() < before) {
            tips.push_back({random.exponential(model.wait_s), kTipS});
        } else {
            const Tip& tip = model.tips[random.below(seen)];
            tips.push_back({tip.wait_s, tip.tip_s});
        }
    }
}

}  // namespace

PathDraws draw_path(const GangModel& model, std::uint64_t seed, std::uint64_t path, double for_s) {
    PathRandom random(seed, path, 0);
    PathDraws draws;
    const std::size_t n = model.machines.size();
    std::vector<double> z(n + 1);
    for (double& one : z) one = random.normal();
    std::vector<double> ln(model.ln_mean);
    for (std::size_t i = 0; i <= n; ++i) {
        for (std::size_t j = 0; j <= i; ++j) ln[i] += model.ln_root[i * (n + 1) + j] * z[j];
    }
    draws.ln_field = ln[n];
    for (std::size_t i = 0; i < n; ++i) {
        const MachineModel& m = model.machines[i];
        draws.machines.push_back({ln[i], random.gamma(m.short_stops.events) / m.short_stops.hours / 3600.0,
                                  random.gamma(m.breakdowns.events) / m.breakdowns.hours / 3600.0});
    }
    const double moves_per_s = random.gamma(model.moves.events) / model.moves.hours / 3600.0;
    for (double at_s = random.exponential(1.0 / moves_per_s); at_s < for_s;
         at_s += random.exponential(1.0 / moves_per_s)) {
        draws.moves.push_back({at_s, model.field_ln_sd * random.normal()});
    }
    draw_tips(model, random, draws.tips);
    draws.short_ln_mean_s = drawn_mean(model.short_stop, random);
    draws.breakdown_ln_mean_s = drawn_mean(model.breakdown, random);
    draws.move_ln_mean_s = drawn_mean(model.move, random);
    return draws;
}

}  // namespace podrate::sim
