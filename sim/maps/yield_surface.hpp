// The yield as a surface: gaps between cells filled from those about them.
#pragma once

#include "maps/day_map.hpp"

namespace podrate::sim {

// Fills surface_kgpm2: of cells told with their own yield, and of ground left between them, adding cells
// without peas where they have cells told within three to both sides. By ordinary kriging of the twelve
// nearest, the variogram fitted to the day's cells; what a cell's own doubt explains is no unevenness of the
// crop. Fewer than 30 cells make no surface.
void add_yield_surface(DayMap& map);

}  // namespace podrate::sim
