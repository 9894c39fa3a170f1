// One field's map as a drawing: cells, marks, scale bar and north.
#pragma once

#include <string>
#include <vector>

#include "maps/cell_figure.hpp"
#include "maps/day_map.hpp"

namespace podrate::sim {

// A figure as people read it.
struct MapFigure : CellFigure {
    const char* title;
    const char* unit;
    int decimals;
    std::vector<MarkKind> marks;
};

MapScale map_scale(const DayMap& map, const MapFigure& figure);

// Of the cells of that field (-1: in none); empty where it has none.
std::string map_picture_svg(DayMap& map, int field, const MapFigure& figure, const MapScale& scale);

// A mark's shape about a point.
std::string mark_shape(MarkKind kind, double x, double y);

}  // namespace podrate::sim
