// The present speed beside the one that is right, why, and what a little faster or slower would bring.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

void draw_speed_panel(Canvas& canvas, Box area, const DriverFigures& figures);

}  // namespace podrate::ui
