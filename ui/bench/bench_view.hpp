// The bench on the screen: parameters and their editor, charts before and after, and what it comes to.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window and applies what the mouse does. Returns the key that a button stands
// for, Key::none where none was pressed. Of type and units it makes its own, smaller ones: this view is read
// at a desk.
KeyPress draw_bench_view(Canvas& canvas, const Box& area, Bench& bench);

}  // namespace podrate::ui
