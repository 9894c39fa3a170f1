#include "bench/compare_pane.hpp"

#include <algorithm>
#include <cmath>

#include "bench/told_lanes.hpp"
#include "kit/time_series.hpp"

namespace podrate::ui {
namespace {

constexpr float kLeastComparedUnits = 120.0F;
constexpr float kComparedGapUnits = 6.0F;
constexpr float kLeastStripUnits = 420.0F;  // of the pane: lower, the alarms stand in their table alone

// Alarms of one run along the time. Those that the other run has as well lie low and pale; one of this run
// alone stands high and dark.
void draw_lane(Canvas& canvas, const Box& lane, const Box& plot, const Bench& bench,
               const std::vector<sim::AlarmEvent>& events, const std::vector<sim::AlarmEvent>& alone) {
    const TimeRange& shown = bench.window().shown();
    const auto x_of = [&](TimeUs at_us) {
        const double at_ms = static_cast<double>(at_us - bench.day().series.origin_us) / 1e3;
        return plot.x + plot.w * static_cast<float>((at_ms - shown.from_ms) / shown.span_ms());
    };
    const auto paint = [&](const sim::AlarmEvent& event, float share, Rgb colour) {
        const float from = std::max(plot.x, x_of(event.start_us));
        const float to = std::min(plot.right(), std::max(x_of(event.end_us), from + 2.0F));
        if (to > from && from < plot.right())
            canvas.fill({from, lane.bottom() - share * lane.h, to - from, share * lane.h}, colour);
    };
    for (const sim::AlarmEvent& event : events) paint(event, 0.4F, canvas.palette().quiet);
    for (const sim::AlarmEvent& event : alone) paint(event, 0.9F, canvas.palette().warning);
    canvas.line({plot.x, lane.bottom()}, {plot.right(), lane.bottom()}, canvas.palette().rule, 1.0F);
}

void draw_alarm_lanes(Canvas& canvas, Box area, const Box& plot, const Bench& bench) {
    const float line = Canvas::line_of(canvas.fonts().label);
    const auto& before = bench.before().alarms;
    const RerunResult* rerun = bench.after();
    const auto& after = rerun != nullptr && rerun->machine.usable ? rerun->machine.alarms : before;
    for (const bool first : {true, false}) {
        const Box lane = area.take_top(line, 2 * canvas.unit());
        const Box label = {area.x, lane.y, plot.x - area.x - kComparedGapUnits * canvas.unit(), lane.h};
        canvas.text(label, canvas.fonts().label, canvas.palette().quiet,
                    bench.speech()(first ? Text::bench_before : Text::bench_after), Align::right);
        draw_lane(canvas, lane, plot, bench, first ? before : after,
                  first ? only_in(before, after) : only_in(after, before));
    }
}

}  // namespace

void draw_compare_pane(Canvas& canvas, Box area, Bench& bench) {
    const float unit = canvas.unit();
    const float gap = kComparedGapUnits * unit;
    const std::vector<Chart>& charts = bench.charts();
    if (charts.empty()) {
        canvas.text(area, canvas.fonts().label, canvas.palette().quiet, bench.before().refusal,
                    Align::centre);
        return;
    }
    const Box plot = plot_of(canvas, area, false);
    if (bench.alarm()) {
        draw_told_lanes(canvas, area.take_top(told_lanes_height(canvas), gap), plot, bench);
    } else if (area.h >= kLeastStripUnits * unit) {
        const float line = Canvas::line_of(canvas.fonts().label);
        draw_alarm_lanes(canvas, area.take_top(2 * line + 4 * unit, gap), plot, bench);
    }
    const auto fit =
        static_cast<std::size_t>(std::max(1.0F, std::floor(area.h / (kLeastComparedUnits * unit))));
    const std::size_t count = std::min(fit, charts.size());
    // The last one has a row of times below, so that all plots are of one height.
    const float times_room = plot_of(canvas, area, false).h - plot_of(canvas, area, true).h;
    const float height =
        (area.h - times_room - gap * static_cast<float>(count - 1)) / static_cast<float>(count);
    const DaySeries& series = bench.day().series;
    const TimeAxis times =
        time_axis(bench.window(), series.origin_us, series.time_zone, time_ticks_that_fit(canvas, plot.w));
    for (std::size_t i = 0; i < count; ++i) {
        const bool last = i + 1 == count;
        const Box box = area.take_top(height + (last ? times_room : 0.0F), gap);
        draw_time_series(canvas, box, charts[i], times, last, bench.window(), bench.pictures()[i]);
    }
}

}  // namespace podrate::ui
