// The gang against the plan, as a drawing.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Delivered, in hoppers and planned over time with the forecast's fan, on one axis, and its legend. The day
// must have a plan.
std::string plan_chart_html(const Day& day, const DayResult& result);

// The same figures as rows for every quarter of an hour (or coarser on a long day), folded away.
std::string plan_table_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
