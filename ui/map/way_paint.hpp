// What lies upon the cells: outlines and names of fields, marks, a machine's way, and where each stands.
#pragma once

#include "map/map_frame.hpp"

namespace podrate::ui {

inline constexpr int kWayMinutes = 10;  // shown before and after the moment

void paint_outlines(const MapFrame& frame);
// In the middle of what is seen of a field, where it is wide enough.
void paint_names(const MapFrame& frame);
void paint_pins(const MapFrame& frame);
// A line for where the machine came from, dots for where it goes next.
void paint_way(const MapFrame& frame);
void paint_machines(const MapFrame& frame);

}  // namespace podrate::ui
