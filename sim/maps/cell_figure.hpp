// What maps show of their cells, and the steps of their colours.
#pragma once

#include <optional>
#include <vector>

#include "maps/day_map.hpp"

namespace podrate::sim {

struct CellFigure {
    std::optional<double> (*value)(const MapCell& cell, double cell_m);  // nothing where none is told
    double (*sd_share)(const MapCell& cell);                             // of that value
    double unsure_share;       // cells less sure than that are hatched,
    double very_unsure_share;  // and cross-hatched
};

extern const CellFigure kYieldOfCell;  // t/ha
extern const CellFigure kLossOfCell;   // left on the ground, kg/ha

// Colours from dark to bright between these values, in even steps.
struct MapScale {
    double low = 0.0;
    double high = 1.0;
    double step = 1.0;

    [[nodiscard]] int steps() const { return static_cast<int>((high - low) / step + 0.5); }
};

// Round values that leave out the outermost twentieths, in steps that show with that many decimals.
MapScale map_scale(std::vector<double> values, int decimals);

}  // namespace podrate::sim
