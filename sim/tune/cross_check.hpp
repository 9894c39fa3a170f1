// Whether what was chosen on some days or machines holds on those that were left out.
#pragma once

#include <string>

#include "tune/intervals.hpp"
#include "tune/place_draws.hpp"
#include "tune/setting_choice.hpp"

namespace podrate::sim {

enum class LeftOut { day, machine };

// One day, or one machine, left out.
struct Fold {
    std::string name;
    ChosenSetting chosen;  // on the others
    std::vector<AlarmSum>
        sums_before;                   // on the one left out, by place in TuningRows::alarms(): as it was ...
    std::vector<AlarmSum> sums_after;  // ... and with what was chosen
    std::vector<AlarmFigures> before;
    std::vector<AlarmFigures> after;
};

enum class Gain { detection, false_per_h, delay_s };
inline constexpr std::size_t kGains = 3;

// Over the setting as it was; above 0 is better: more told, fewer false alarms, sooner.
struct GainCheck {
    double on_all = 0.0;    // of the setting chosen on all, on all
    double left_out = 0.0;  // of the settings chosen without it, each on what was left out, together
    Range range;            // of the latter
    // What is promised on all does not show on what was left out: the range holds zero, lies below it, or
    // cannot be told. Of gains that are luck alone (20 settings alike) about one in twenty passes, where one
    // in three would pass unchecked.
    [[nodiscard]] bool lost() const { return on_all > 0.0 && !(range.low > 0.0); }
};

struct CrossCheck {
    LeftOut left_out = LeftOut::day;
    std::vector<Fold> folds;                              // none where there is but one day or machine
    std::vector<std::array<GainCheck, kGains>> of_alarm;  // by place in TuningRows::alarms()
};

CrossCheck cross_check(const TuningRows& rows, LeftOut left_out, const ChosenSetting& on_all,
                       const TuningOptions& options, const PlaceDraws& draws);

}  // namespace podrate::sim
