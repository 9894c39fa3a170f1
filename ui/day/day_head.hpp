// Above and below the day's panes: what is shown and what it comes to; what keys do, or what was done last.
#pragma once

#include "day/day_desk.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

float day_head_height(const Canvas& canvas, const DayDesk& desk, float width_px);
void draw_day_head(Canvas& canvas, Box area, DayDesk& desk);

float day_foot_height(const Canvas& canvas, float width_px);
// Returns the key that a button stands for, Key::none where none was pressed.
KeyPress draw_day_foot(Canvas& canvas, Box area, const DayDesk& desk);

}  // namespace podrate::ui
