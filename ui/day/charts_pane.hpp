// The charts of a day, one below the other, with what the machines did above them.
#pragma once

#include "day/day_desk.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and applies what the mouse does to the desk. As many charts as find
// room, from the first on.
void draw_charts_pane(Canvas& canvas, Box area, DayDesk& desk);

}  // namespace podrate::ui
