#include "tune/sensitivity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "tune/setting_choice.hpp"

namespace podrate::sim {
namespace {

bool differs_by_one(const TuneTable& table, std::size_t a, std::size_t b, std::size_t parameter) {
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const bool same = same_value(table.settings[a].values[i], table.settings[b].values[i]);
        if (same == (i == parameter)) return false;
    }
    return true;
}

void find_steps(const TuneTable& table, const std::vector<AlarmFigures>& figures, std::size_t around,
                ParameterEffect& effect) {
    const double here = table.settings[around].values[effect.parameter];
    for (std::size_t there = 0; there < table.settings.size(); ++there) {
        if (!differs_by_one(table, around, there, effect.parameter)) continue;
        const double value = table.settings[there].values[effect.parameter];
        if (std::isnan(here) || std::isnan(value)) continue;
        std::optional<LocalStep>& step = value < here ? effect.down : effect.up;
        if (step && std::abs(step->value - here) <= std::abs(value - here)) continue;
        step = LocalStep{value, {}};
        for (std::size_t f = 0; f < kAlarmFigures; ++f)
            step->change[f] = figures[there][f] - figures[around][f];
    }
}

// Whether the setting as it was is a point of the grid, and none of the others is the same point.
bool first_is_of_grid(const TuneTable& table) {
    const std::vector<double>& now = table.settings[0].values;
    std::vector<bool> seen(now.size(), false);
    for (std::size_t setting = 1; setting < table.settings.size(); ++setting) {
        const std::vector<double>& then = table.settings[setting].values;
        bool same = true;
        for (std::size_t i = 0; i < now.size(); ++i) {
            if (now[i] == then[i]) seen[i] = true;
            same = same && now[i] == then[i];
        }
        if (same) return false;
    }
    return std::all_of(seen.begin(), seen.end(), [](bool value_seen) { return value_seen; });
}

struct FigureMean {
    double sum = 0.0;
    int count = 0;
    [[nodiscard]] double mean() const {
        return count > 0 ? sum / count : std::numeric_limits<double>::quiet_NaN();
    }
};

void find_spread(const TuneTable& table, const std::vector<AlarmFigures>& figures, ParameterEffect& effect) {
    std::map<double, std::array<FigureMean, kAlarmFigures>> by_value;
    for (std::size_t setting = first_is_of_grid(table) ? 0 : 1; setting < table.settings.size(); ++setting) {
        auto& means = by_value[table.settings[setting].values[effect.parameter]];
        for (std::size_t f = 0; f < kAlarmFigures; ++f) {
            if (std::isnan(figures[setting][f])) continue;
            means[f].sum += figures[setting][f];
            ++means[f].count;
        }
    }
    if (by_value.empty()) {
        constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
        effect.least = effect.greatest = table.settings[0].values[effect.parameter];
        for (AlarmFigures* f : {&effect.at_least, &effect.at_greatest, &effect.spread}) f->fill(kNaN);
        return;
    }
    effect.least = by_value.begin()->first;
    effect.greatest = by_value.rbegin()->first;
    for (std::size_t f = 0; f < kAlarmFigures; ++f) {
        effect.at_least[f] = by_value.begin()->second[f].mean();
        effect.at_greatest[f] = by_value.rbegin()->second[f].mean();
        double low = std::numeric_limits<double>::infinity();
        double high = -low;
        for (const auto& [value, means] : by_value) {
            if (means[f].count == 0) continue;
            low = std::min(low, means[f].mean());
            high = std::max(high, means[f].mean());
        }
        effect.spread[f] = high >= low ? high - low : std::numeric_limits<double>::quiet_NaN();
    }
}

}  // namespace

std::vector<ParameterEffect> parameter_effects(const TuneTable& table,
                                               const std::vector<AlarmFigures>& figures, std::size_t around) {
    std::vector<ParameterEffect> effects;
    for (std::size_t parameter = 0; parameter < table.parameters.size(); ++parameter) {
        ParameterEffect effect;
        effect.parameter = parameter;
        find_steps(table, figures, around, effect);
        find_spread(table, figures, effect);
        effects.push_back(effect);
    }
    return effects;
}

}  // namespace podrate::sim
