// report.html: the day on one page, self-contained.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

std::string html_report(const Day& day, const DayResult& result);

}  // namespace podrate::sim
