// The report's section on how fresh the loads were.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where no load was tipped.
std::string freshness_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
