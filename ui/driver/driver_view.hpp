// The driver's view of one machine: load rate, hopper, and little else, in figures to be read at a glance.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

void draw_driver_view(Canvas& canvas, const Box& area, const DriverFigures& figures);

}  // namespace podrate::ui
