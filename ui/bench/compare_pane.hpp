// Charts of a machine's day before and after, and when alarms stood.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and applies what the mouse does to the window of time. As many charts
// as find room, from the first on.
void draw_compare_pane(Canvas& canvas, Box area, Bench& bench);

}  // namespace podrate::ui
