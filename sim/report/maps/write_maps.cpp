#include "report/maps/write_maps.hpp"

#include "report/harvested_geojson.hpp"
#include "report/maps/map_cells_csv.hpp"
#include "report/maps/map_cells_geojson.hpp"
#include "report/maps/map_gpkg.hpp"
#include "report/maps/map_tiff.hpp"
#include "report/output_file.hpp"

namespace podrate::sim {

void write_maps(const std::filesystem::path& out, const Day& day, const DayResult& result) {
    const std::vector<HarvestedStretch> stretches = harvested_stretches(day, result);
    write_file(out / "fields_harvested.geojson", harvested_geojson(stretches));
    if (!result.map) return;
    const DayMap& map = *result.map;
    write_file(out / "map_cells.csv", map_cells_csv(map));
    write_file(out / "map_cells.geojson", map_cells_geojson(map));
    write_file(out / "map.gpkg", map_gpkg(map, stretches, result.last_us));
    const std::string tiff = map_tiff(map);
    if (!tiff.empty()) write_file(out / "map.tif", tiff);
}

}  // namespace podrate::sim
