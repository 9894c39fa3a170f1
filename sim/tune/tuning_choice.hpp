// What is concluded from a sweep.
#pragma once

#include "parameters/parameter_set.hpp"
#include "tune/cross_check.hpp"
#include "tune/graded_area.hpp"
#include "tune/sensitivity.hpp"

namespace podrate::sim {

using AlarmRanges = std::array<Range, kAlarmFigures>;
using PanelRanges = std::array<Range, kPanelFigures>;

// Of one alarm that the sweep moves; vectors are by setting.
struct AlarmConclusion {
    std::size_t alarm = 0;
    std::vector<AlarmSum> sums;
    std::vector<AlarmFigures> figures;
    // By bootstrap over machines' days. That of the detection reaches at least as far as Wilson's, that of
    // false alarms at least up to what none seen leaves open: a bootstrap of days that are all alike sees
    // no doubt at all.
    std::vector<AlarmRanges> ranges;
    std::vector<bool> unbeaten;
    GradedArea area{};   // under the envelope of all settings, false alarms as a share of the most any has
    Range area_range{};  // by bootstrap
    Range detection_wilson{};              // of the setting chosen
    std::vector<ParameterEffect> effects;  // around the setting chosen

    [[nodiscard]] bool too_few(const TuningOptions& options) const {
        return !detection_wilson.known() || detection_wilson.width() > options.widest_detection;
    }
};

// An alarm that no setting moves: as it is.
struct StillAlarm {
    std::size_t alarm = 0;
    AlarmSum sum;
    AlarmFigures figures{};
    AlarmRanges ranges{};
};

struct PanelConclusion {
    PanelFigures figures{};
    PanelRanges ranges{};
    int most_in_ten = 0;
};

struct TuningChoice {
    TuningOptions options;
    Parameters present;              // as they were, whole
    std::vector<Parameters> own_of;  // by place in TuneTable::on; none: all have `present`
    // For the set recommended: what was laid over the machines before the sweep; who, when and from what. Its
    // note is written anew, and made_from_mark where it is empty.
    std::optional<ParameterSet> base;
    SetEntry made;
    ChosenSetting chosen;
    std::vector<AlarmConclusion> alarms;
    std::vector<StillAlarm> still;
    std::vector<PanelConclusion> panel;  // by setting
    CrossCheck by_day;
    CrossCheck by_machine;
};

// `present`: all parameters as they were; what TuneTable::settings[0] names goes before it. The table needs
// at least one setting, and a tally for each setting and place. The same input gives the same bits.
TuningChoice conclude_tuning(const TuneTable& table, const Parameters& present,
                             const TuningOptions& options = {});

}  // namespace podrate::sim
