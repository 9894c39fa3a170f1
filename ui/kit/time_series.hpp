// One chart of a stack of time series that share their time.
#pragma once

#include "kit/canvas.hpp"
#include "series/chart.hpp"

namespace podrate::ui {

// How many ticks of time find room on a chart that wide: for time_axis().
int time_ticks_that_fit(const Canvas& canvas, float width_px);

// Where the lines are drawn within the chart's area. `with_times`: with a row for the times below.
Box plot_of(const Canvas& canvas, Box area, bool with_times);

// Draws into an open Dear ImGui window and applies what the mouse does to `window`: the wheel zooms at the
// pointer, a drag moves, a drag with Shift shows what it swept, a double click shows all. `picture` is filled
// anew and keeps its memory from frame to frame. A renderer needs ImGuiBackendFlags_RendererHasVtxOffset, or
// a child window for every few charts: a stack has more than 65,536 vertices.
void draw_time_series(Canvas& canvas, Box area, const Chart& chart, const TimeAxis& times, bool with_times,
                      TimeWindow& window, ChartPicture& picture);

}  // namespace podrate::ui
