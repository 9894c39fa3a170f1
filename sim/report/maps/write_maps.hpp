// All files of a day's maps.
#pragma once

#include <filesystem>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// fields_harvested.geojson; where there is a map also map_cells.csv, map_cells.geojson, map.gpkg, and map.tif
// unless the day is too wide for one.
void write_maps(const std::filesystem::path& out, const Day& day, const DayResult& result);

}  // namespace podrate::sim
