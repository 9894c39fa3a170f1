// What waiting and moving bring and cost, for people to weigh.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Tables and a sentence for each field to go to; no advice. Empty where nothing is known to be left.
std::string moving_on_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
