// The hopper: how full, and how long until it is.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

void draw_hopper_panel(Canvas& canvas, Box area, const DriverFigures& figures);

}  // namespace podrate::ui
