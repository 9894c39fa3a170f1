// summary.json: the day in figures, for other programs.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

std::string summary_json(const Day& day, const DayResult& result);

}  // namespace podrate::sim
