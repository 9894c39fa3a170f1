// What a whole day tells that no machine alone does.
#pragma once

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Adds the loss as neighbouring bouts tell it (analysis/gang_loss), the fields (fields/field_figures), how
// ripe they are (maturity/field_maturity), what to expect by the plan's end (plan/forecast) and, if asked,
// the maps (maps/day_map).
void analyse_day(const Day& day, DayResult& result, bool with_map);

}  // namespace podrate::sim
