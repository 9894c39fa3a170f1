// The chosen parameter in full, and what is being typed.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

float editor_height(const Canvas& canvas);
void draw_editor_pane(Canvas& canvas, Box area, const Bench& bench);

}  // namespace podrate::ui
