#include "score/loss_score.hpp"

#include <cmath>

#include "log/column_reader.hpp"
#include "score/log_clock.hpp"

namespace podrate::sim {
namespace {

constexpr double kSameDrumSecondS = 0.5;

}  // namespace

void score_drum_seconds(const std::filesystem::path& results, const std::filesystem::path& day_folder,
                        const std::string& machine, const TruePlant& plant, const TrueLoss& truth,
                        LossPart& drum) {
    if (!truth.drum_known || truth.unix_s.empty()) return;
    const LogClock clock(day_folder, machine);
    ColumnReader losses(results / ("losses_" + machine + ".csv"), {"unix_s", "drum_loss_share"});
    while (losses.next()) {
        const double after_s = clock.true_unix_s(losses.number(0)) - truth.unix_s.front();
        const double at_s = std::round(after_s);
        const double cut_s = at_s - std::round(plant.drum.dead_time_s);
        if (cut_s < 0.0 || at_s >= static_cast<double>(truth.unix_s.size())) continue;
        if (std::abs(after_s - at_s) > kSameDrumSecondS) continue;
        if (plant.seconds[static_cast<std::size_t>(at_s)].area_rate_m2ps <= 0.0) continue;
        const double share = truth.drum[static_cast<std::size_t>(cut_s)];
        if (share >= 0.0) drum.seconds.add(losses.number(1) - share);
    }
}

void LossTotal::add(const LossScore& machine, double true_stood_kg, double stood_kg) {
    true_stood_kg_ += true_stood_kg;
    stood_kg_ += stood_kg;
    sum_.total.known = true;
    sum_.total.true_share += true_stood_kg * machine.total.true_share;
    sum_.total.share += stood_kg * machine.total.share;
    sum_.total.seconds.add(machine.total.seconds);
    sum_.drum.true_share += true_stood_kg * machine.drum.true_share;
    sum_.drum.share += stood_kg * machine.drum.share;
    sum_.drum.seconds.add(machine.drum.seconds);
    sum_.alarms.add(machine.alarms);
    ++sum_.machines;
    sum_.total_held += machine.total.held() ? 1 : 0;
    sum_.drum_known += machine.drum.known ? 1 : 0;
    sum_.drum_held += machine.drum.known && machine.drum.held() ? 1 : 0;
}

LossScore LossTotal::score() const {
    LossScore all = sum_;
    // A sum that lacks a machine's drum would be no mean of the gang's.
    all.drum.known = all.machines > 0 && all.drum_known == all.machines;
    for (LossPart* part : {&all.total, &all.drum}) {
        part->true_share = true_stood_kg_ > 0.0 ? part->true_share / true_stood_kg_ : 0.0;
        part->share = stood_kg_ > 0.0 ? part->share / stood_kg_ : 0.0;
    }
    return all;
}

}  // namespace podrate::sim
