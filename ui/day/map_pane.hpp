// The map of a day, at the moment of the cursor.
#pragma once

#include "day/day_desk.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and applies what the mouse does: a click goes to the time at which the
// chosen machine was there.
void draw_map_pane(Canvas& canvas, const Box& area, DayDesk& desk);

}  // namespace podrate::ui
