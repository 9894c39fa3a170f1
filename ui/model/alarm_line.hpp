// The one alarm that the bottom line tells: of those that are shown, the highest, and of these the newest.
#pragma once

#include "model/recording.hpp"
#include "model/words.hpp"

namespace podrate::ui {

struct AlarmLine {
    bool shown = false;
    AlarmId alarm = AlarmId::loss_high;
    AlarmPriority priority = AlarmPriority::low;
    std::string what;    // "Losing more than 15 %"
    std::string check;   // "Slow down, look behind the machine."
    std::string behind;  // "+2 more", or empty
};

// As the machine's parameters tell it.
AlarmPriority priority_of(AlarmId alarm, const Parameters& parameters);

AlarmLine alarm_line(const MachineRecording& machine, const Estimate& estimate, const Speech& say);

}  // namespace podrate::ui
