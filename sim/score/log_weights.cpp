#include "score/log_weights.hpp"

#include <cmath>
#include <limits>

#include "log/machine_log.hpp"
#include "podrate/weight/conditioning.hpp"
#include "score/log_clock.hpp"
#include "score/true_faults.hpp"

namespace podrate::sim {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr double kSameMomentS = 0.051;

double weight_of(const LogRow& row) {
    if (row.holds(Column::hopper_kg)) return row[Column::hopper_kg];
    double sum = kNone;
    for (const Column cell : {Column::cell1_kg, Column::cell2_kg, Column::cell3_kg, Column::cell4_kg}) {
        if (row.holds(cell)) sum = (std::isfinite(sum) ? sum : 0.0) + row[cell];
    }
    return sum;
}

// Takes the means away where the scale showed nothing of the hopper.
void leave_out_spoilt(const std::filesystem::path& day_folder, const std::string& machine,
                      double first_unix_s, std::vector<double>& mean_kg) {
    for (const TrueFault& fault : read_true_faults(day_folder, machine)) {
        const bool blind = fault.kind == FaultKind::weight_stuck || fault.kind == FaultKind::weight_dropout ||
                           fault.kind == FaultKind::weight_open;
        if (!blind) continue;
        for (std::size_t i = 0; i < mean_kg.size(); ++i) {
            const double unix_s = first_unix_s + static_cast<double>(i);
            if (unix_s > fault.start_unix_s - 1.0 && unix_s < fault.end_unix_s + 1.0) mean_kg[i] = kNone;
        }
    }
}

}  // namespace

LogWeights log_weights(const Machine& machine, const std::filesystem::path& day_folder, double first_unix_s,
                       std::size_t seconds) {
    LogWeights weights;
    weights.reading_kg.assign(seconds, kNone);
    weights.mean_kg.assign(seconds, 0.0);
    std::vector<int> counts(seconds, 0);
    WeightConditioner conditioner(machine.parameters);
    Problems ignored;
    const LogClock clock(day_folder, machine.id);
    const auto log = open_log(machine.log, machine.bus, ignored);
    LogRow row;
    while (log->next(row)) {
        if (row.holds(Column::pitch_deg) && row.holds(Column::roll_deg)) {
            conditioner.set_tilt(tilt_sample(row.time_us, static_cast<float>(row[Column::pitch_deg]),
                                             static_cast<float>(row[Column::roll_deg])));
        }
        if (row.holds(Column::lat_deg)) conditioner.set_latitude(static_cast<Real>(row[Column::lat_deg]));
        const double kg = weight_of(row);
        if (!std::isfinite(kg)) continue;
        const double at_s = clock.true_unix_s(static_cast<double>(row.time_us) / 1e6) - first_unix_s;
        const double shown_from = std::ceil(at_s - kSameMomentS);
        if (shown_from >= 0.0 && shown_from < static_cast<double>(seconds))
            weights.reading_kg[static_cast<std::size_t>(shown_from)] = kg;
        const double around = std::floor(at_s + 0.5);
        if (around < 0.0 || around >= static_cast<double>(seconds)) continue;
        const auto second = static_cast<std::size_t>(around);
        weights.mean_kg[second] +=
            static_cast<double>(conditioner.condition(weight_sample(row.time_us, static_cast<float>(kg))));
        ++counts[second];
    }
    for (std::size_t i = 0; i < seconds; ++i)
        weights.mean_kg[i] = counts[i] > 0 ? weights.mean_kg[i] / counts[i] : kNone;
    leave_out_spoilt(day_folder, machine.id, first_unix_s, weights.mean_kg);
    return weights;
}

}  // namespace podrate::sim
