// The bottom line: what is the matter and what to check; still where nothing is.
#pragma once

#include <optional>

#include "kit/canvas.hpp"
#include "model/driver_figures.hpp"

namespace podrate::ui {

// What the bar needs for two kinds of line, px; more on an upright screen, where words wrap. `touch_px`: the
// side of a touch target (driver/touch_size); 0 where nothing can be answered. It hangs on nothing that
// changes, so that figures stay where they are when an alarm comes.
float message_bar_height(const Canvas& canvas, bool upright, float touch_px = 0.0F);

// Draws into an open Dear ImGui window where there is something to touch. Returns what was touched.
std::optional<AlarmOrder> draw_message_bar(Canvas& canvas, Box area, const DriverFigures& figures,
                                           float touch_px = 0.0F);

}  // namespace podrate::ui
