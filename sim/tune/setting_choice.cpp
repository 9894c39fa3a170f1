#include "tune/setting_choice.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "podrate/math/elementary.hpp"
#include "tune/intervals.hpp"

namespace podrate::sim {
namespace {

constexpr double kLeastMissed = 0.005;
constexpr double kLeastFalsePerH = 0.001;

double or_else(double value, double other) {
    return std::isnan(value) ? other : value;
}

std::size_t values_changed(const TuneTable& table, std::size_t setting) {
    std::size_t changed = 0;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        if (!same_value(table.settings[setting].values[i], table.settings[0].values[i])) ++changed;
    }
    return changed;
}

// From the present values, each in parts of what its parameter is swept over.
double distance(const TuningRows& rows, std::size_t setting) {
    const TuneTable& table = rows.table();
    double sum = 0.0;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const double off = std::abs(table.settings[setting].values[i] - table.settings[0].values[i]);
        if (rows.swept_over(i) > 0.0 && !std::isnan(off)) sum += off / rows.swept_over(i);
    }
    return sum;
}

// In order of weight; less is better.
using Standing = std::array<double, 8>;

Standing standing_of(const TuningRows& rows, std::size_t setting, const TuningOptions& options,
                     PlaceTimes times) {
    Standing standing{};
    for (std::size_t i = 0; i < rows.alarms().size(); ++i) {
        const AlarmRow& row = rows.row(i, setting);
        const AlarmFigures figures = row.figures(times);
        standing[0] += shortfall_of(figures, options);
        standing[1] += unsure_shortfall_of(row.sum(times), options);
        standing[2] += or_else(of(figures, AlarmFigure::delay_median_s), 0.0);
        standing[3] += or_else(of(figures, AlarmFigure::delay_90_s), 0.0);
        standing[4] += or_else(of(figures, AlarmFigure::false_per_h), 0.0);
        standing[5] -= or_else(of(figures, AlarmFigure::detection), 0.0);
    }
    standing[6] = static_cast<double>(values_changed(rows.table(), setting));
    standing[7] = distance(rows, setting);
    return standing;
}

}  // namespace

TuningRows::TuningRows(const TuneTable& table, std::vector<std::size_t> alarms)
    : table_(&table), alarms_(std::move(alarms)) {
    for (const std::size_t alarm : alarms_) {
        std::vector<AlarmRow>& of_alarm = rows_.emplace_back();
        for (std::size_t setting = 0; setting < table.settings.size(); ++setting)
            of_alarm.emplace_back(table, setting, alarm);
    }
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        double low = table.settings[0].values[i];
        double high = low;
        for (const TuneSetting& one : table.settings) {
            low = std::fmin(low, one.values[i]);
            high = std::fmax(high, one.values[i]);
        }
        swept_over_.push_back(high - low);
    }
}

bool same_value(double a, double b) {
    return a == b || (std::isnan(a) && std::isnan(b));
}

double shortfall_of(const AlarmFigures& figures, const TuningOptions& options) {
    const double detection = of(figures, AlarmFigure::detection);
    const double false_per_h = of(figures, AlarmFigure::false_per_h);
    if (detection == 0.0) return std::numeric_limits<double>::infinity();
    double shortfall = 0.0;
    const double may_miss = std::max(1.0 - options.least_detection, kLeastMissed);
    if (detection < options.least_detection && 1.0 - detection > may_miss)
        shortfall += math::ln((1.0 - detection) / may_miss);
    const double may_cry = std::max(options.most_false_per_h, kLeastFalsePerH);
    if (false_per_h > may_cry) shortfall += math::ln(false_per_h / may_cry);
    return shortfall;
}

double unsure_shortfall_of(const AlarmSum& sum, const TuningOptions& options) {
    constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
    AlarmFigures figures;
    figures.fill(kNaN);
    const auto set = [&figures](AlarmFigure which, double value) {
        figures[static_cast<std::size_t>(which)] = value;
    };
    if (sum.episodes > 0.0)
        set(AlarmFigure::detection, wilson_range(sum.told, sum.episodes, options.level).low);
    if (sum.known_h > 0.0)
        set(AlarmFigure::false_per_h, rate_bound(sum.false_alarms, sum.known_h, options.level));
    return shortfall_of(figures, options);
}

ChosenSetting choose_setting(const TuningRows& rows, const TuningOptions& options, PlaceTimes times) {
    ChosenSetting best;
    Standing best_standing{};
    for (std::size_t setting = 0; setting < rows.settings(); ++setting) {
        const Standing standing = standing_of(rows, setting, options, times);
        if (setting > 0 && !(standing < best_standing)) continue;
        best = {setting, standing[0]};
        best_standing = standing;
    }
    return best;
}

std::vector<bool> unbeaten(const std::vector<AlarmFigures>& figures) {
    using Costs = std::array<double, 3>;
    constexpr double kNever = std::numeric_limits<double>::infinity();
    std::vector<Costs> costs;
    for (const AlarmFigures& f : figures) {
        costs.push_back({1.0 - or_else(of(f, AlarmFigure::detection), 1.0),
                         or_else(of(f, AlarmFigure::false_per_h), 0.0),
                         or_else(of(f, AlarmFigure::delay_median_s), kNever)});
    }
    // In order, only what stands before can beat, and what is beaten is beaten by one that is not.
    std::vector<std::size_t> order(costs.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return costs[a] < costs[b]; });
    std::vector<bool> kept(costs.size(), false);
    std::vector<std::size_t> front;
    for (const std::size_t i : order) {
        const bool beaten = std::any_of(front.begin(), front.end(), [&](std::size_t other) {
            return costs[other] != costs[i] && costs[other][1] <= costs[i][1] &&
                   costs[other][2] <= costs[i][2];
        });
        if (beaten) continue;
        kept[i] = true;
        front.push_back(i);
    }
    return kept;
}

}  // namespace podrate::sim
