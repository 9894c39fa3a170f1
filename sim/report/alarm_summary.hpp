// The alarms of a machine's day, counted.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct AlarmKindSum {
    int count = 0;
    double seconds = 0.0;  // how long it stood, all of them
    int chatters = 0;      // times it came thrice within a minute (ISA-18.2, IEC 62682)
};

using AlarmSums = std::array<AlarmKindSum, static_cast<std::size_t>(kAlarms)>;  // by AlarmId

AlarmSums alarm_sums(const std::vector<AlarmEvent>& events);

// Time in the field: harvesting, turning, pausing, waiting and tipping.
double work_seconds(const MachineResult& machine);

// Alarms for each 10 minutes of that; 0 where there was none.
double alarms_per_10_min(const MachineResult& machine);

// In plain words: "loss above its limit".
const char* words_for(AlarmId alarm);

}  // namespace podrate::sim
