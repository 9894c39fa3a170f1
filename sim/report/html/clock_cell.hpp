// Moments in the report's tables.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// "14:05", with the date before it where the day's logs reach over midnight.
std::string clock_cell(TimeUs time_us, const Day& day, const DayResult& result);

}  // namespace podrate::sim
