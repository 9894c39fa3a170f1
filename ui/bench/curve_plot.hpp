// An operating curve: what an alarm tells against how often it comes for nothing.
#pragma once

#include <optional>

#include "bench/bench.hpp"
#include "kit/canvas.hpp"

namespace podrate::ui {

enum class CurveUp { told, delay };

// Of a bench whose book has a curve. Draws into an open Dear ImGui window. Returns the place among the
// curve's values that the mouse points at.
std::optional<std::size_t> draw_curve_plot(Canvas& canvas, Box area, const Bench& bench, CurveUp up);

}  // namespace podrate::ui
