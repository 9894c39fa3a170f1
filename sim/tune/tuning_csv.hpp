// A sweep as tables.
#pragma once

#include <string>

#include "tune/objective.hpp"
#include "tune/tally.hpp"

namespace podrate::sim {

// A row for each setting and alarm, summed over days and machines, and one for each setting with all alarms
// that the drivers were shown; setting 0 is the parameters as they were. RFC 4180; a cell is empty where
// there is nothing to tell. `alarms`: what the objective sums over.
std::string tuning_csv(const TuneTable& table, const std::vector<AlarmId>& alarms,
                       const TuneWeights& weights);

// The same for each day and machine.
std::string tuning_by_day_csv(const TuneTable& table);

}  // namespace podrate::sim
