// The parameters of the bench as rows: key, this day's value, value now.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// So that the longest key and the longest value find room.
float least_list_width(const Canvas& canvas);

// Draws into an open Dear ImGui window and applies what the mouse does: a click chooses, the wheel scrolls.
void draw_list_pane(Canvas& canvas, Box area, Bench& bench);

}  // namespace podrate::ui
