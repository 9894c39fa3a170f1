// The bottom line: what is the matter and what to check; still where nothing is.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

// What the bar needs for two kinds of line, px; more on an upright screen, where words wrap.
float message_bar_height(const Canvas& canvas, bool upright);

void draw_message_bar(Canvas& canvas, Box area, const DriverFigures& figures);

}  // namespace podrate::ui
