// The shapes that stand on a map for a mark and for a machine.
#pragma once

#include "kit/canvas.hpp"
#include "maps/map_marks.hpp"

namespace podrate::ui {

inline constexpr int kMachineShapes = 4;

// Hollow: a triangle pointing down for a tip, a square for a stop, a ring for a heap, a cross for a tray.
void paint_pin(Canvas& canvas, ImVec2 middle, sim::MarkKind kind);

// Filled, with a rim that stands out from any cell: disc, square, triangle, diamond, each in its colour; a
// fifth machine has the first one's again.
void paint_machine(Canvas& canvas, ImVec2 middle, std::size_t machine);

// A line upon cells of any colour.
void paint_cased(Canvas& canvas, const ImVec2* points, int count, bool closed, Rgb colour, float width_units);

}  // namespace podrate::ui
