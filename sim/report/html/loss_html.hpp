// The report's section on what was lost.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

std::string loss_html(const DayResult& result);

}  // namespace podrate::sim
