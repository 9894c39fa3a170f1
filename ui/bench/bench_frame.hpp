// Above and below the bench: whose parameters these are and how far a replay is; what keys do, or what was
// done last.
#pragma once

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

void draw_bench_head(Canvas& canvas, Box area, const Bench& bench);

float bench_foot_height(const Canvas& canvas, float width_px);
// Returns the key that a button stands for, Key::none where none was pressed.
KeyPress draw_bench_foot(Canvas& canvas, Box area, const Bench& bench);

}  // namespace podrate::ui
