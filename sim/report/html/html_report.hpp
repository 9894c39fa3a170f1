// report.html: the day on one page, self-contained.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// No network, no script; light and dark; prints on A4.
std::string html_report(const Day& day, const DayResult& result);

}  // namespace podrate::sim
