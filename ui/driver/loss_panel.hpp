// What is lost: how much, how sure that is and from what, and what it leaves on the ground.
#pragma once

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

void draw_loss_panel(Canvas& canvas, Box area, const DriverFigures& figures);

}  // namespace podrate::ui
