// What a machine's day comes to with its own parameters and with those edited, side by side.
#pragma once

#include <string>
#include <vector>

#include "podrate/alarm/alarm_panel.hpp"
#include "replay/machine_replay.hpp"
#include "text/text.hpp"

namespace podrate::ui {

// An alarm of the one run is the same as one of the other where both are of a kind and share a moment.
struct AlarmsCompared {
    AlarmId alarm = AlarmId::loss_high;
    int before = 0;
    int after = 0;
    int gone = 0;  // of those before, have none of that kind at their time any more
    int come = 0;  // of those after, had none
    double before_s = 0.0;
    double after_s = 0.0;
};

// Kinds that came in either run, in the order of AlarmId.
std::vector<AlarmsCompared> compare_alarms(const std::vector<sim::AlarmEvent>& before,
                                           const std::vector<sim::AlarmEvent>& after);

// Those of `events` that have none of their kind at their time in `others`.
std::vector<sim::AlarmEvent> only_in(const std::vector<sim::AlarmEvent>& events,
                                     const std::vector<sim::AlarmEvent>& others);

struct FigureCompared {
    std::string name;
    std::string unit;
    std::string before;
    std::string after;   // empty without a rerun
    std::string change;  // "+0.12"; "±0" where no shown figure moves; empty without a rerun
};

// Harvested, area, yield, load rate, loss, loads, alarms, their time. `after`: nullptr without a rerun.
std::vector<FigureCompared> compare_totals(const sim::MachineResult& before, const sim::MachineResult* after,
                                           const Speech& say);

}  // namespace podrate::ui
