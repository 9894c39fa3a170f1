// stops.csv: where and when machines did not harvest, for how long, and what that cost.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Stops of at least day.hours.stop_least_s, machines in the day's order and then by start. Place and
// forgone_kg are empty where they are not known.
std::string stops_csv(const Day& day, const DayResult& result);

}  // namespace podrate::sim
