// Lines and bands of a time series, painted from a trace's marks.
#pragma once

#include <vector>

#include "kit/canvas.hpp"
#include "series/axis_ticks.hpp"
#include "series/trace.hpp"

namespace podrate::ui {

// From a chart's values to pixels.
class Plot {
  public:
    // `per_value`: of the axis' unit in one of the values'.
    Plot(const Box& box, const ValueAxis& axis, double per_value);

    // A little beyond the plot at most, however far off the value.
    [[nodiscard]] float y_of(float value) const;
    // Of a place on the axis.
    [[nodiscard]] float y_of_tick(int index) const;

    Box box;
    ValueAxis axis;

  private:
    float low_;  // value at the lower edge
    float px_per_value_;
};

// The shaded 90 % band. Broken at gaps.
void paint_band(Canvas& canvas, const Plot& plot, const std::vector<TraceMark>& marks, Rgb colour);

// The line: one rectangle a pixel where samples are dense, a polyline where they are not. Broken at gaps; a
// sample alone is a dot.
void paint_line(Canvas& canvas, const Plot& plot, const std::vector<TraceMark>& marks, Rgb colour);

// The shape that goes with a line's colour, 0 to 3: disc, square, triangle, diamond.
void paint_shape(Canvas& canvas, ImVec2 middle, int shape, Rgb colour);

}  // namespace podrate::ui
