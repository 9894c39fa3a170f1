// map_cells.geojson: the maps' cells, for any map program.
#pragma once

#include <string>

#include "maps/day_map.hpp"

namespace podrate::sim {

// RFC 7946: a square for each cell, and last an unlocated feature with what no cell holds.
std::string map_cells_geojson(const DayMap& map);

}  // namespace podrate::sim
