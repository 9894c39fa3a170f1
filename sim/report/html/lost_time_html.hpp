// The report's ranking of lost time, and its longest stops.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where no machine has a ledger.
std::string lost_time_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
