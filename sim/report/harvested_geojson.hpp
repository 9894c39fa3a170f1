// fields_harvested.geojson: the ground that each machine cut, for maps.
#pragma once

#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// RFC 7946: a polygon for each stretch that a machine cut without a break in one field, with field (null
// where there is none), machine, start and end. Stretches overlap where the machines did.
std::string harvested_geojson(const Day& day, const DayResult& result);

}  // namespace podrate::sim
