// freshness.csv: how old the peas of each load were at the tip and at the intake.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Machines in the day's order, loads in theirs. Cells are empty where too little of a load was traced.
std::string freshness_csv(const Day& day, const DayResult& result);

}  // namespace podrate::sim
