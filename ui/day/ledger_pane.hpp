// The ledger of a day: what happened, row by row, and which kinds of it are seen.
#pragma once

#include "day/day_desk.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and applies what the mouse does: a click goes to a row's time or shows
// and hides a kind, the wheel scrolls.
void draw_ledger_pane(Canvas& canvas, Box area, DayDesk& desk);

}  // namespace podrate::ui
