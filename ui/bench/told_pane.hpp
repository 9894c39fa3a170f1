// What one alarm's setting is worth: counted before and after, and as its parameter runs over its range.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Side by side where both find room, else the one that is asked for. Draws into an open Dear ImGui window and
// applies what the mouse does: a click on a point of the curve sets its value.
void draw_told_pane(Canvas& canvas, Box area, Bench& bench);

}  // namespace podrate::ui
