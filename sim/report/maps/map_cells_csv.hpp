// map_cells.csv: the maps' cells as a table.
#pragma once

#include <string>

#include "maps/day_map.hpp"

namespace podrate::sim {

// East and north are of a cell's south-west corner on the plane of that EPSG number. The last row, without a
// place, is what no cell holds.
std::string map_cells_csv(const DayMap& map);

}  // namespace podrate::sim
