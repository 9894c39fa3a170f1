#include "day/charts_pane.hpp"

#include <algorithm>
#include <cmath>

#include "day/state_strip.hpp"
#include "kit/time_series.hpp"

namespace podrate::ui {
namespace {

constexpr float kLeastChartUnits = 104.0F;
constexpr float kChartsGapUnits = 6.0F;
constexpr float kShade = 0.16F;

// The time of the row that is chosen, over all charts.
void shade_chosen(Canvas& canvas, const Box& plot, DayDesk& desk) {
    const auto chosen = desk.ledger().chosen();
    if (!chosen) return;
    const LedgerRow& row = desk.rows()[*chosen];
    const TimeRange& shown = desk.window().shown();
    const auto x_of = [&](TimeUs at_us) {
        const double at_ms = static_cast<double>(at_us - desk.day().series.origin_us) / 1e3;
        const double share = (at_ms - shown.from_ms) / shown.span_ms();
        return plot.x + plot.w * static_cast<float>(std::clamp(share, -0.01, 1.01));
    };
    const float from = std::max(plot.x, x_of(row.from_us));
    const float to = std::min(plot.right(), std::max(x_of(row.to_us), from + 2.0F));
    if (to <= from || from > plot.right()) return;
    canvas.list().AddRectFilled({from, plot.y}, {to, plot.bottom()},
                                Canvas::packed(canvas.palette().text, kShade));
}

}  // namespace

void draw_charts_pane(Canvas& canvas, Box area, DayDesk& desk) {
    const float unit = canvas.unit();
    const float gap = kChartsGapUnits * unit;
    const Box strip = area.take_top(state_strip_height(canvas, desk), gap);
    const std::vector<Chart>& charts = desk.charts();
    if (charts.empty()) {
        canvas.text(area, canvas.fonts().text, canvas.palette().quiet, desk.speech()(Text::no_columns),
                    Align::centre);
        return;
    }
    const auto fit = static_cast<std::size_t>(std::max(1.0F, std::floor(area.h / (kLeastChartUnits * unit))));
    const std::size_t count = std::min(fit, charts.size());
    // The last one has a row of times below, so that all plots are of one height.
    const float times_room = plot_of(canvas, area, false).h - plot_of(canvas, area, true).h;
    const float height =
        (area.h - times_room - gap * static_cast<float>(count - 1)) / static_cast<float>(count);
    const Box plot = plot_of(canvas, area, false);
    const TimeAxis times = time_axis(desk.window(), desk.day().series.origin_us, desk.day().series.time_zone,
                                     time_ticks_that_fit(canvas, plot.w));
    draw_state_strip(canvas, {plot.x, strip.y, plot.w, strip.h}, desk);
    for (std::size_t i = 0; i < count; ++i) {
        const bool last = i + 1 == count;
        const Box box = area.take_top(height + (last ? times_room : 0.0F), gap);
        draw_time_series(canvas, box, charts[i], times, last, desk.window(), desk.pictures()[i]);
        shade_chosen(canvas, plot_of(canvas, box, last), desk);
    }
}

}  // namespace podrate::ui
