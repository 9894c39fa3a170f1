// The report's part on how ripe the fields are.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where the day has no readings.
std::string maturity_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
