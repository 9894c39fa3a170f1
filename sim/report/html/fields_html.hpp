// The report's section on fields.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where no field is known.
std::string fields_html(const DayResult& result);

}  // namespace podrate::sim
