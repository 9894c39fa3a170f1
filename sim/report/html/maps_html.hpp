// The report's maps: yield and loss by cell, field by field.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

// Empty where there is no map.
std::string maps_html(const DayResult& result);

}  // namespace podrate::sim
