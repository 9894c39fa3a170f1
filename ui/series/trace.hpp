// A column made ready for painting: what each pixel of a chart's width has to show.
#pragma once

#include <vector>

#include "series/day_series.hpp"
#include "series/time_window.hpp"

namespace podrate::ui {

// All samples of one pixel's time, or a single sample at its own place. Values in the column's unit.
struct TraceMark {
    float x_px = 0.0F;  // from the chart's left edge
    float first = 0.0F;
    float last = 0.0F;
    Extent line;          // all that the line does there, exact
    Extent band;          // the widest 90 % interval there; the line where the column has none
    bool joined = false;  // to the mark before: no gap between
    bool single = true;
};

// Marks of the samples in `range` and of one to each side of it, so that lines go on to the edges. Pixels'
// edges lie at whole multiples of a pixel's time, so that a picture that is moved does not flicker. O(width
// log samples), whatever the zoom. Puts them into `marks`, which keeps its memory.
void trace(const MachineSeries& machine, const Column& column, const TimeRange& range, int width_px,
           std::vector<TraceMark>& marks);

// What the line and its band do in `range` and on their way out of it, in O(log samples).
struct Heights {
    Extent line;
    Extent band;
};
Heights heights(const MachineSeries& machine, const Column& column, const TimeRange& range);

}  // namespace podrate::ui
