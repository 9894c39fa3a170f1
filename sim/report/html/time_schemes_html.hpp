// The report's tables of working time by published schemes.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where no machine has a ledger.
std::string time_schemes_html(const DayResult& result);

}  // namespace podrate::sim
