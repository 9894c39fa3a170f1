// fields_harvested.geojson: the ground that each machine cut, for maps.
#pragma once

#include <string>
#include <vector>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// A stretch that a machine cut without a break in one field.
struct HarvestedStretch {
    std::string machine;
    std::string field;  // empty where there is none
    TimeUs start_us = 0;
    TimeUs end_us = 0;
    Ring ring;  // counter-clockwise
};

std::vector<HarvestedStretch> harvested_stretches(const Day& day, const DayResult& result);

// RFC 7946: a polygon for each stretch, with field (null where there is none), machine, start and end.
// Stretches overlap where the machines did.
std::string harvested_geojson(const std::vector<HarvestedStretch>& stretches);

}  // namespace podrate::sim
