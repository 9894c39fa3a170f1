// The strip below the view that plays a recorded day: play, pace, place in the day, machine, palette.
#pragma once

#include "kit/canvas.hpp"
#include "model/session.hpp"

namespace podrate::ui {

// What it needs on a screen of that width: one line, or two.
float player_bar_height(const Canvas& canvas, float width_px);

// Draws into an open Dear ImGui window and applies what the mouse does.
void draw_player_bar(Canvas& canvas, Box area, Session& session);

}  // namespace podrate::ui
