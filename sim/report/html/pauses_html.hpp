// The report's section on pauses in standing crop: where heaps of haulm lie.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where no machine paused.
std::string pauses_html(const Day& day, const DayResult& result);

}  // namespace podrate::sim
