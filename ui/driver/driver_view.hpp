// The driver's view of one machine: load rate, hopper, and little else, in figures to be read at a glance.
#pragma once

#include <optional>

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

// `touch_px`: the side of a touch target, where alarms can be answered, in an open Dear ImGui window; 0
// elsewhere. Returns the answer that was touched.
std::optional<AlarmOrder> draw_driver_view(Canvas& canvas, const Box& area, const DriverFigures& figures,
                                           float touch_px = 0.0F);

}  // namespace podrate::ui
