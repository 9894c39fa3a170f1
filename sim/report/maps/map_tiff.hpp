// map.tif: the maps as bands of a raster.
#pragma once

#include <string>

#include "maps/day_map.hpp"

namespace podrate::sim {

// OGC GeoTIFF 1.1 (19-008r4), 32 bit floats, not a number where nothing is known: yield, its standard
// deviation, surface, its standard deviation (t/ha), loss and its standard deviation (kg/ha), peas harvested
// and lost in the cell (kg; those in no cell stand in the metadata). Empty where the day spans more than two
// million cells.
std::string map_tiff(const DayMap& map);

}  // namespace podrate::sim
