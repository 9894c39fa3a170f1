// Load rate: the figure, its interval, and the last quarter of an hour.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

void draw_rate_panel(Canvas& canvas, Box area, const DriverFigures& figures);

}  // namespace podrate::ui
