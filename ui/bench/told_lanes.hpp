// The chosen alarm along the time: what was to be told, and what was, before and after.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

float told_lanes_height(const Canvas& canvas);

// `plot`: where the charts below have their lines. Draws into an open Dear ImGui window and applies what the
// mouse does: a drag over the upper lane marks an episode, a click goes there.
void draw_told_lanes(Canvas& canvas, Box area, const Box& plot, Bench& bench);

}  // namespace podrate::ui
