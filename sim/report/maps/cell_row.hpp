// A cell's figures in the order and with the names that all exports of the map have in common.
#pragma once

#include <array>
#include <optional>

#include "maps/day_map.hpp"

namespace podrate::sim {

struct CellColumn {
    const char* name;
    int decimals;
    // Nothing where the cell has no such figure.
    std::optional<double> (*value)(const MapCell& cell, double cell_m);
};

inline constexpr int kCellColumns = 13;
// cut_m2, seconds, harvested_kg, ...
const std::array<CellColumn, kCellColumns>& cell_columns();

// Name of the cell's field, or nothing.
const std::string* field_of(const MapCell& cell, const DayMap& map);

// Corners of the cell on the plane, counter-clockwise from the south-west.
std::array<EastNorth, 4> corners_of(const MapCell& cell, double cell_m);

}  // namespace podrate::sim
