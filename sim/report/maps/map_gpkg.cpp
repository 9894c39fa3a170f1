#include "report/maps/map_gpkg.hpp"

#include "report/maps/cell_row.hpp"
#include "report/maps/geo_package.hpp"

namespace podrate::sim {
namespace {

LayerValue number(double value) {
    return {value, std::nullopt};
}
LayerValue words(const std::string& text) {
    return {std::nullopt, text.empty() ? std::nullopt : std::optional(text)};
}
LayerValue unix_s(TimeUs time_us) {
    return number(static_cast<double>(time_us) / 1e6);
}

std::vector<LayerValue> values_of(const MapCell& cell, double cell_m, const std::string& field) {
    std::vector<LayerValue> values = {words(field)};
    for (const CellColumn& column : cell_columns())
        values.push_back({column.value(cell, cell_m), std::nullopt});
    return values;
}

void add_cells(const DayMap& map, GeoPackage& package) {
    std::vector<LayerColumn> columns = {{"field", "TEXT"}};
    for (const CellColumn& column : cell_columns()) columns.push_back({column.name, "REAL"});
    package.begin_layer("cells", "Peas harvested and lost by cell; low and high: 90 % range",
                        LayerKind::polygons, columns);
    for (const MapCell& cell : map.cells) {
        const auto corners = corners_of(cell, map.cell_m);
        const std::string* field = field_of(cell, map);
        package.add({corners.begin(), corners.end()},
                    values_of(cell, map.cell_m, field == nullptr ? std::string() : *field));
    }
    MapCell unplaced;
    unplaced.harvested_kg = map.unplaced_kg;
    unplaced.lost_kg = map.unplaced_lost_kg;
    package.add({}, values_of(unplaced, map.cell_m, "unplaced"));
    package.end_layer();
}

void add_swaths(const std::vector<HarvestedStretch>& stretches, UtmPlane& plane, GeoPackage& package) {
    package.begin_layer(
        "swaths", "Ground cut without a break; machines overlap where they did", LayerKind::polygons,
        {{"field", "TEXT"}, {"machine", "TEXT"}, {"start_unix_s", "REAL"}, {"end_unix_s", "REAL"}});
    for (const HarvestedStretch& stretch : stretches) {
        std::vector<EastNorth> corners;
        for (const LatLon& corner : stretch.ring) corners.push_back(plane.to_plane(corner));
        package.add(corners, {words(stretch.field), words(stretch.machine), unix_s(stretch.start_us),
                              unix_s(stretch.end_us)});
    }
    package.end_layer();
}

struct MarkLayer {
    MarkKind kind;
    const char* name;
    const char* description;
    const char* figure;
    const char* beside;  // its standard deviation, or what kind of time a stop was
};

constexpr MarkLayer kMarkLayers[] = {
    {MarkKind::tip, "tips", "Where loads were tipped", "net_kg", "net_sd_kg"},
    {MarkKind::stop, "stops", "Stretches without harvest", "seconds", "state"},
    {MarkKind::heap, "heaps", "Haulm left on one spot by a pause in standing crop", "haulm_kg", nullptr},
    {MarkKind::tray_check, "tray_checks", "Peas counted on the ground", "ground_kgpha", "ground_sd_kgpha"}};

void add_marks(const MarkLayer& layer, const DayMap& map, UtmPlane& plane, GeoPackage& package) {
    std::vector<LayerColumn> columns = {
        {"machine", "TEXT"}, {"start_unix_s", "REAL"}, {"end_unix_s", "REAL"}, {layer.figure, "REAL"}};
    const bool stop = layer.kind == MarkKind::stop;
    if (layer.beside != nullptr) columns.push_back({layer.beside, stop ? "TEXT" : "REAL"});
    package.begin_layer(layer.name, layer.description, LayerKind::points, columns);
    for (const MapMark& mark : map.marks) {
        if (mark.kind != layer.kind) continue;
        std::vector<LayerValue> values = {words(mark.machine), unix_s(mark.start_us), unix_s(mark.end_us),
                                          number(mark.figure)};
        if (layer.beside != nullptr) values.push_back(stop ? words(mark.words) : number(mark.figure_sd));
        package.add({plane.to_plane(mark.place)}, values);
    }
    package.end_layer();
}

}  // namespace

std::string map_gpkg(const DayMap& map, const std::vector<HarvestedStretch>& stretches, TimeUs made_us) {
    UtmPlane plane = map.plane;
    GeoPackage package(plane, made_us);
    add_cells(map, package);
    add_swaths(stretches, plane, package);
    for (const MarkLayer& layer : kMarkLayers) add_marks(layer, map, plane, package);
    return package.bytes();
}

}  // namespace podrate::sim
