// fields.csv: what each field gave.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

// A row for each of DayResult::fields; a cell is empty where nothing is known.
std::string fields_csv(const DayResult& result);

}  // namespace podrate::sim
