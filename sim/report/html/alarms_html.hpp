// The report's section on alarms: how many of each kind, how often, and the list.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

std::string alarms_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
