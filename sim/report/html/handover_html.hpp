// handover.html: what the next shift takes over, on one sheet of A4.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// As of the last row of each machine's log. No network, no script.
std::string handover_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
