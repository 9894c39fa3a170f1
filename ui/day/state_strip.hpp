// What each machine did, as a strip above the charts: the higher and fuller, the more crop comes in.
#pragma once

#include "day/day_desk.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

float state_strip_height(const Canvas& canvas, const DayDesk& desk);

// `area`: as wide as the charts' plots.
void draw_state_strip(Canvas& canvas, Box area, const DayDesk& desk);

}  // namespace podrate::ui
