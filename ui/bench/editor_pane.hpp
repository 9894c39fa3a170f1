// The chosen parameter in full, and what is being typed.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

float editor_height(const Canvas& canvas);
// Draws into an open Dear ImGui window and applies what the mouse does: the mark on the range is dragged.
void draw_editor_pane(Canvas& canvas, Box area, Bench& bench);

}  // namespace podrate::ui
