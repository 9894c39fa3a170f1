// The report's section on the factory's plan.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Chart, sentences, cases and when machines must be back; empty where there is no plan.
std::string plan_html(const Day& day, const DayResult& result);

// Waits for trailers by machine and hour; empty where nobody tipped.
std::string trailer_waits_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
