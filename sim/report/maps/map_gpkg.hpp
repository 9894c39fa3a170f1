// map.gpkg: all that has a place on the day's maps, for GIS programs.
#pragma once

#include <string>
#include <vector>

#include "maps/day_map.hpp"
#include "report/harvested_geojson.hpp"

namespace podrate::sim {

// OGC GeoPackage 1.3 on the maps' plane. Layers: cells, swaths, tips, stops, heaps, tray_checks. The last row
// of cells, without a place, is what no cell holds.
std::string map_gpkg(const DayMap& map, const std::vector<HarvestedStretch>& stretches, TimeUs made_us);

}  // namespace podrate::sim
