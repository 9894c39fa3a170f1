// The strip below the driver's view of the simulator: that it is no machine, what is driven, what is true.
#pragma once

#include "kit/canvas.hpp"
#include "simulator/simulator_figures.hpp"

namespace podrate::ui {

// The unit of a whole screen that holds the driver's view and the strip.
float simulator_unit(float width_px, float height_px, float scale);

// What it needs at that width. Where all of it finds no room side by side, it shows half of it at a time.
float simulator_strip_height(const Canvas& canvas, float width_px);

void draw_simulator_strip(Canvas& canvas, Box area, const SimulatorFigures& figures);

// Dashes round the whole screen: nobody takes it for a machine's.
void draw_simulator_frame(Canvas& canvas, const Box& whole);

}  // namespace podrate::ui
