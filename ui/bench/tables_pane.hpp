// What the day comes to before and after, its alarms, and who made the set that is open.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Of the room for charts and tables together.
float tables_height(const Canvas& canvas, const Box& area);

// Totals and alarms side by side where both find room, else the one that is asked for. Draws into an open
// Dear ImGui window and applies what the mouse does.
void draw_tables_pane(Canvas& canvas, Box area, Bench& bench);

}  // namespace podrate::ui
