// The driver's view of one machine: load rate, hopper, and little else, in figures to be read at a glance.
#pragma once

#include <optional>

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

// What unit_for() gives for the view on an area of that size, less where targets take room from the panels.
float driver_unit(const Canvas& canvas, float width_px, float height_px, float scale, float touch_px);

// `touch_px`: the side of a touch target, where alarms can be answered, in an open Dear ImGui window; 0
// elsewhere. Returns the answer that was touched.
std::optional<AlarmOrder> draw_driver_view(Canvas& canvas, const Box& area, const DriverFigures& figures,
                                           float touch_px = 0.0F);

}  // namespace podrate::ui
