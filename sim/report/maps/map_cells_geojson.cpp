#include "report/maps/map_cells_geojson.hpp"

#include "log/number.hpp"
#include "report/json_text.hpp"
#include "report/maps/cell_row.hpp"

namespace podrate::sim {
namespace {

constexpr int kCornerDecimals = 8;  // a millimetre

void append_properties(std::string& text, const MapCell& cell, double cell_m, const std::string& field) {
    text += R"({"type":"Feature","properties":{"field":)" + field;
    for (const CellColumn& column : cell_columns()) {
        text += std::string(",\"") + column.name + "\":";
        const std::optional<double> value = column.value(cell, cell_m);
        if (value) {
            append_fixed(text, *value, column.decimals);
        } else {
            text += "null";
        }
    }
}

}  // namespace

std::string map_cells_geojson(const DayMap& map) {
    UtmPlane plane = map.plane;
    std::string text = R"({"type":"FeatureCollection","features":[)";
    for (const MapCell& cell : map.cells) {
        const std::string* field = field_of(cell, map);
        text += '\n';
        append_properties(text, cell, map.cell_m, field == nullptr ? "null" : quoted_json(*field));
        text += R"(},"geometry":{"type":"Polygon","coordinates":[[)";
        const auto corners = corners_of(cell, map.cell_m);
        for (std::size_t i = 0; i <= corners.size(); ++i) {
            const LatLon corner = plane.to_lat_lon(corners[i % corners.size()]);
            text += i == 0 ? "[" : ",[";
            append_fixed(text, corner.lon_deg, kCornerDecimals);
            text += ',';
            append_fixed(text, corner.lat_deg, kCornerDecimals);
            text += ']';
        }
        text += "]]}},";
    }
    MapCell unplaced;
    unplaced.harvested_kg = map.unplaced_kg;
    unplaced.lost_kg = map.unplaced_lost_kg;
    text += '\n';
    append_properties(text, unplaced, map.cell_m, "\"unplaced\"");
    return text + "},\"geometry\":null}\n]}\n";
}

}  // namespace podrate::sim
