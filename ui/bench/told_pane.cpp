#include "bench/told_pane.hpp"

#include "bench/curve_plot.hpp"
#include "bench/table_paint.hpp"
#include "bench/told_words.hpp"

namespace podrate::ui {
namespace {

constexpr float kToldGapUnits = 16.0F;
constexpr float kLeastPlotUnits = 300.0F;
constexpr float kLeastTwoPlotsUnits = 660.0F;

float table_width(const Canvas& canvas, const std::vector<std::array<std::string, 3>>& rows) {
    const auto widths = widths_of(rows, canvas.fonts().label);
    return widths[0] + widths[1] + widths[2] + 2 * kTablePadUnits * canvas.unit();
}

// Words in the middle of a box, in as many lines as they take.
void say_why_not(Canvas& canvas, Box area, const std::string& words) {
    ImFont* font = canvas.fonts().label;
    const float high = Canvas::lines_of(font, words, area.w) * Canvas::line_of(font);
    if (high < area.h) area.take_top((area.h - high) / 2);
    canvas.lines(area, font, canvas.palette().quiet, words, Align::centre);
}

void draw_curves(Canvas& canvas, Box area, Bench& bench) {
    const std::string why_not = no_curve_words(bench);
    if (!why_not.empty()) return say_why_not(canvas, area, why_not);
    const float gap = kToldGapUnits * canvas.unit();
    const Box foot = area.take_bottom(Canvas::line_of(canvas.fonts().label));
    const bool two = area.w >= kLeastTwoPlotsUnits * canvas.unit();
    std::optional<std::size_t> pointed;
    if (two) {
        const Box delays = area.take_right((area.w - gap) / 2, gap);
        pointed = draw_curve_plot(canvas, delays, bench, CurveUp::delay);
    }
    if (const auto told = draw_curve_plot(canvas, area, bench, CurveUp::told)) pointed = told;
    const AlarmCurve& curve = *bench.book().curve();
    canvas.text(
        foot, canvas.fonts().label, canvas.palette().quiet,
        pointed ? point_words(bench, curve.values[*pointed], curve.figures[*pointed]) : sureness_words(bench),
        Align::right);
    if (pointed && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) bench.put_value(curve.values[*pointed]);
}

}  // namespace

void draw_told_pane(Canvas& canvas, Box area, Bench& bench) {
    if (!bench.alarm()) {
        say_why_not(canvas, area, bench.speech()(Text::bench_no_alarm_chosen));
        return;
    }
    const auto rows = told_rows(bench);
    const float gap = kToldGapUnits * canvas.unit();
    const float width = table_width(canvas, rows);
    const bool both = area.w - width - gap >= kLeastPlotUnits * canvas.unit();
    const bool counts = both || bench.table() == BenchTable::told;
    if (counts) draw_table(canvas, both ? area.take_left(width, gap) : area, rows);
    if (both || !counts) draw_curves(canvas, area, bench);
}

}  // namespace podrate::ui
