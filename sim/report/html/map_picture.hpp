// One field's map as a drawing: cells, marks, scale bar and north.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "maps/day_map.hpp"

namespace podrate::sim {

// What a map shows of its cells.
struct MapFigure {
    const char* title;
    const char* unit;
    int decimals;
    std::optional<double> (*value)(const MapCell& cell, double cell_m);
    double (*sd_share)(const MapCell& cell);  // of that value
    double unsure_share;                      // cells less sure than that are hatched,
    double very_unsure_share;                 // and cross-hatched
    std::vector<MarkKind> marks;
};

// Colours from dark to bright between these values, in even steps.
struct MapScale {
    double low = 0.0;
    double high = 1.0;
    double step = 1.0;
};

// Round values that leave out the outermost twentieths of the cells.
MapScale map_scale(const DayMap& map, const MapFigure& figure);

// Of the cells of that field (-1: in none); empty where it has none.
std::string map_picture_svg(DayMap& map, int field, const MapFigure& figure, const MapScale& scale);

// A mark's shape about a point.
std::string mark_shape(MarkKind kind, double x, double y);

}  // namespace podrate::sim
