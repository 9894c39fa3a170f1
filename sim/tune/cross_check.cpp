#include "tune/cross_check.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

const std::string& left_out_key(const TunedOn& on, LeftOut left_out) {
    return left_out == LeftOut::day ? on.day : on.machine;
}

// In order of first mention.
std::vector<std::string> left_out_keys(const TuneTable& table, LeftOut left_out) {
    std::vector<std::string> keys;
    for (const TunedOn& on : table.on) {
        const std::string& key = left_out_key(on, left_out);
        if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
    }
    return keys;
}

std::array<double, kGains> gains_of(const AlarmFigures& before, const AlarmFigures& after) {
    return {of(after, AlarmFigure::detection) - of(before, AlarmFigure::detection),
            of(before, AlarmFigure::false_per_h) - of(after, AlarmFigure::false_per_h),
            of(before, AlarmFigure::delay_median_s) - of(after, AlarmFigure::delay_median_s)};
}

// How many times wider a range is to be because what was chosen for each fold was chosen on mostly the same
// days: sd of the mean over J folds as sqrt(1/J + n2/n1) instead of sqrt(1/J), n2/n1 = 1/(J - 1) what was
// left out against what was chosen on. Nadeau & Bengio, Machine Learning 52: 239-281, 2003, the corrected
// resampled t test.
double overlap_factor(std::size_t folds) {
    const auto j = static_cast<double>(folds);
    return std::sqrt(1.0 + j / (j - 1.0));
}

std::array<GainCheck, kGains> gain_checks(const TuningRows& rows, std::size_t i, std::size_t on_all,
                                          const std::vector<std::size_t>& setting_of, std::size_t folds,
                                          double level, const PlaceDraws& draws) {
    const std::vector<int> once(rows.table().on.size(), 1);
    const AlarmRow& before = rows.row(i, 0);
    const AlarmRow after(rows.table(), setting_of, rows.alarms()[i]);
    const auto promised = gains_of(before.figures(once), rows.row(i, on_all).figures(once));
    const auto kept = gains_of(before.figures(once), after.figures(once));
    std::array<std::vector<double>, kGains> drawn;
    for (std::size_t draw = 0; draw < draws.count(); ++draw) {
        const auto gains = gains_of(before.figures(draws.times(draw)), after.figures(draws.times(draw)));
        for (std::size_t g = 0; g < kGains; ++g) drawn[g].push_back(gains[g]);
    }
    std::array<GainCheck, kGains> checks;
    const double wider = overlap_factor(folds);
    for (std::size_t g = 0; g < kGains; ++g) {
        const Range range = bootstrap_range(drawn[g], draws.places(), level);
        checks[g] = {promised[g],
                     kept[g],
                     {kept[g] - wider * (kept[g] - range.low), kept[g] + wider * (range.high - kept[g])}};
    }
    return checks;
}

}  // namespace

CrossCheck cross_check(const TuningRows& rows, LeftOut left_out, const ChosenSetting& on_all,
                       const TuningOptions& options, const PlaceDraws& draws) {
    const TuneTable& table = rows.table();
    CrossCheck check;
    check.left_out = left_out;
    const std::vector<std::string> keys = left_out_keys(table, left_out);
    if (keys.size() < 2) return check;
    std::vector<std::size_t> setting_of(table.on.size(), 0);
    for (const std::string& key : keys) {
        std::vector<int> others;
        std::vector<int> its_own;
        for (const TunedOn& on : table.on) {
            const bool is_left_out = left_out_key(on, left_out) == key;
            others.push_back(is_left_out ? 0 : 1);
            its_own.push_back(is_left_out ? 1 : 0);
        }
        Fold fold{key, choose_setting(rows, options, others), {}, {}, {}, {}};
        for (std::size_t place = 0; place < its_own.size(); ++place) {
            if (its_own[place] != 0) setting_of[place] = fold.chosen.setting;
        }
        for (std::size_t i = 0; i < rows.alarms().size(); ++i) {
            const AlarmRow& before = rows.row(i, 0);
            const AlarmRow& after = rows.row(i, fold.chosen.setting);
            fold.sums_before.push_back(before.sum(its_own));
            fold.sums_after.push_back(after.sum(its_own));
            fold.before.push_back(before.figures(its_own));
            fold.after.push_back(after.figures(its_own));
        }
        check.folds.push_back(std::move(fold));
    }
    for (std::size_t i = 0; i < rows.alarms().size(); ++i)
        check.of_alarm.push_back(
            gain_checks(rows, i, on_all.setting, setting_of, keys.size(), options.level, draws));
    return check;
}

}  // namespace podrate::sim
