// Yield where it cuts, and what the day has brought so far.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

void draw_day_panel(Canvas& canvas, Box area, const DriverFigures& figures);

}  // namespace podrate::ui
