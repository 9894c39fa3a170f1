#include "report/maps/cell_row.hpp"

#include "log/units.hpp"

namespace podrate::sim {
namespace {

using Figure = std::optional<double>;

Figure if_told(const MapCell& cell, double cell_m, double value) {
    return cell.told(cell_m) ? Figure(value) : std::nullopt;
}

}  // namespace

const std::array<CellColumn, kCellColumns>& cell_columns() {
    static const std::array<CellColumn, kCellColumns> kCellFigures = {{
        {"cut_m2", 2, [](const MapCell& c, double) { return Figure(c.cut_m2); }},
        {"seconds", 1, [](const MapCell& c, double) { return Figure(c.seconds); }},
        {"harvested_kg", 4, [](const MapCell& c, double) { return Figure(c.harvested_kg); }},
        {"harvested_sd_kg", 4, [](const MapCell& c, double) { return Figure(c.harvested_sd_kg); }},
        {"yield_tpha", 3, [](const MapCell& c, double m) { return if_told(c, m, c.yield_tpha()); }},
        {"yield_tpha_low", 3,
         [](const MapCell& c, double m) {
             return if_told(c, m, c.yield_tpha() - kReach90 * c.yield_sd_tpha());
         }},
        {"yield_tpha_high", 3,
         [](const MapCell& c, double m) {
             return if_told(c, m, c.yield_tpha() + kReach90 * c.yield_sd_tpha());
         }},
        {"lost_kg", 4, [](const MapCell& c, double) { return Figure(c.lost_kg); }},
        {"lost_sd_kg", 4, [](const MapCell& c, double) { return Figure(c.lost_sd_kg); }},
        {"lost_kgpha", 1, [](const MapCell& c, double m) { return if_told(c, m, c.lost_kg_per_ha()); }},
        {"lost_sd_kgpha", 1, [](const MapCell& c, double m) { return if_told(c, m, c.lost_sd_kg_per_ha()); }},
        {"surface_tpha", 3,
         [](const MapCell& c, double) {
             return c.surface_kgpm2 ? Figure(10.0 * *c.surface_kgpm2) : std::nullopt;
         }},
        {"surface_sd_tpha", 3,
         [](const MapCell& c, double) {
             return c.surface_kgpm2 ? Figure(10.0 * c.surface_sd_kgpm2) : std::nullopt;
         }},
    }};
    return kCellFigures;
}

const std::string* field_of(const MapCell& cell, const DayMap& map) {
    return cell.field < 0 ? nullptr : &map.fields[static_cast<std::size_t>(cell.field)];
}

std::array<EastNorth, 4> corners_of(const MapCell& cell, double cell_m) {
    const double west_m = cell.place.column * cell_m;
    const double south_m = cell.place.row * cell_m;
    return {{{west_m, south_m},
             {west_m + cell_m, south_m},
             {west_m + cell_m, south_m + cell_m},
             {west_m, south_m + cell_m}}};
}

}  // namespace podrate::sim
