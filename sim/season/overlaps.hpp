// The same hours of a machine in two days of a season.
#pragma once

#include <string>
#include <vector>

#include "season/day_figures.hpp"

namespace podrate::sim {

// A day whose usable machines all stand in one earlier in the list, with the same times and rows, is marked
// as repeated and no longer counts. Where a machine's times merely overlap, both days count and a note says
// so.
void mark_overlaps(std::vector<DayFigures>& days, std::vector<std::string>& notes);

}  // namespace podrate::sim
