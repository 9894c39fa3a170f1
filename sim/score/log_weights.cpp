#include "score/log_weights.hpp"

#include <cmath>

#include "log/log_reader.hpp"
#include "podrate/weight/conditioning.hpp"

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

}  // namespace

LogWeights log_weights(const Machine& machine, double first_unix_s, std::size_t seconds) {
    LogWeights weights;
    weights.reading_kg.assign(seconds, kNone);
    weights.mean_kg.assign(seconds, 0.0);
    std::vector<int> counts(seconds, 0);
    WeightConditioner conditioner(machine.parameters);
    Problems ignored;
    LogReader reader(machine.log, ignored);
    LogRow row;
    while (reader.next(row)) {
        if (row.holds(Column::pitch_deg) && row.holds(Column::roll_deg)) {
            conditioner.set_tilt(tilt_sample(row.time_us, static_cast<float>(row[Column::pitch_deg]),
                                             static_cast<float>(row[Column::roll_deg])));
        }
        if (row.holds(Column::lat_deg)) conditioner.set_latitude(static_cast<Real>(row[Column::lat_deg]));
        const double kg = weight_of(row);
        if (!std::isfinite(kg)) continue;
        const double at_s = static_cast<double>(row.time_us) / 1e6 - first_unix_s;
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
    return weights;
}

}  // namespace podrate::sim
