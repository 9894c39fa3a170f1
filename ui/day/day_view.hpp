// The day's view: charts, and what happened, of one machine or of all.
#pragma once

#include "day/day_desk.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and applies what the mouse does. Returns the key that a button stands
// for, Key::none where none was pressed. Of type and units it makes its own,
// smaller ones: this view is read at a desk.
KeyPress draw_day_view(Canvas& canvas, const Box& area, DayDesk& desk);

}  // namespace podrate::ui
