// The cells of a map: coloured by yield or loss, hatched where that is not sure.
#pragma once

#include "map/map_frame.hpp"

namespace podrate::ui {

// The colour of a place on the scale, 0 dark to 1 bright.
ImU32 cell_colour(double share);

// Hatches a box as cells of that doubt are, upon a colour of that share. Lines of neighbouring boxes meet.
void paint_hatch(Canvas& canvas, const Box& box, Doubt doubt, double share, ImVec2 origin);

void paint_cells(const MapFrame& frame);

}  // namespace podrate::ui
