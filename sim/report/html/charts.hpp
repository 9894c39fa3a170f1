// The report's drawings, as inline SVG.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Load rate by the minute with the work states below; all machines share one time axis.
std::string machine_timeline_svg(const MachineResult& machine, const Day& day, const DayResult& result);

// Swatches and words for the work states.
std::string state_legend_html();

// Fill patterns that the drawings refer to; once a page.
std::string pattern_definitions_svg();

}  // namespace podrate::sim
