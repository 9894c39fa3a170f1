// Drawings of how a field ripens: readings, what is believed, the window.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// All fields of a day share the time axis; each has readings of its own scale.
std::string maturity_svg(const FieldMaturity& field, const Day& day, const DayResult& result);

}  // namespace podrate::sim
