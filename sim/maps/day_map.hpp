// The maps of a day: a grid of cells with what was cut in each, and what else has a place.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "geo/utm_plane.hpp"
#include "maps/cell_grid.hpp"
#include "maps/map_marks.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct MapCell {
    CellPlace place;
    int field = -1;             // in DayMap::fields; -1: in none
    double cut_m2 = 0.0;        // ground that its peas came from, overlap taken off
    double harvested_kg = 0.0;  // a little below zero is possible where hardly anything was cut
    double harvested_sd_kg = 0.0;
    double lost_kg = 0.0;
    double lost_sd_kg = 0.0;  // doubt that cells share
    double seconds = 0.0;     // of machines that cut there
    // The yield, kg/m2; of ground left between cells by those about it (maps/yield_surface).
    std::optional<double> surface_kgpm2;
    double surface_sd_kgpm2 = 0.0;

    // Of a cell barely touched no yield is told.
    [[nodiscard]] bool told(double cell_m) const { return cut_m2 >= 0.05 * cell_m * cell_m; }
    [[nodiscard]] double yield_tpha() const { return tonnes_per_hectare(harvested_kg, cut_m2); }
    [[nodiscard]] double yield_sd_tpha() const { return tonnes_per_hectare(harvested_sd_kg, cut_m2); }
    [[nodiscard]] double lost_kg_per_ha() const { return 1e3 * tonnes_per_hectare(lost_kg, cut_m2); }
    [[nodiscard]] double lost_sd_kg_per_ha() const { return 1e3 * tonnes_per_hectare(lost_sd_kg, cut_m2); }
};

struct DayMap {
    explicit DayMap(LatLon near, double side_m) : cell_m(side_m), plane(near) {}
    double cell_m;
    UtmPlane plane;
    std::vector<MapCell> cells;       // from south to north, in a row from west to east
    std::vector<std::string> fields;  // names
    std::vector<MapMark> marks;
    // What no cell holds, so that all add up to the machines' totals: peas cut where no place was known.
    double unplaced_kg = 0.0;
    double unplaced_lost_kg = 0.0;
};

// Nothing where no machine told a place while it cut.
std::optional<DayMap> day_map(const Day& day, const std::vector<MachineResult>& machines);

}  // namespace podrate::sim
