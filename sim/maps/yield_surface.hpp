// The yield as a surface: each cell by those about it, and gaps between cells filled.
#pragma once

#include "maps/day_map.hpp"

namespace podrate::sim {

// Fills surface_kgpm2 of the cells told, and adds cells without peas where ground was left between them: with
// cells told within three to both sides. By ordinary kriging of the twelve nearest, the variogram fitted to
// the day's cells; what a cell's own doubt explains is no unevenness of the crop. Fewer than 30 cells make no
// surface.
void add_yield_surface(DayMap& map);

}  // namespace podrate::sim
