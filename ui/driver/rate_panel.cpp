#include "driver/rate_panel.hpp"

#include <algorithm>

#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

// The band and the line of the last minutes. Newest at the right.
class RecentChart {
  public:
    RecentChart(Canvas& canvas, const Box& plot, const DriverFigures& figures)
        : canvas_(canvas), plot_(plot), figures_(figures) {}

    void draw() {
        const float unit = canvas_.unit();
        for (int i = 0; i < 3; ++i) {
            const float y = y_of(figures_.rate_scale_tph * i / 2);
            canvas_.line({plot_.x, y}, {plot_.right(), y}, canvas_.palette().rule, 1.0F);
            const Box label = {plot_.x - 50 * unit, y - 12 * unit, 42 * unit, 24 * unit};
            canvas_.text(label, canvas_.fonts().label, canvas_.palette().quiet, figures_.rate_marks[i],
                         Align::right);
        }
        draw_band();
        draw_line();
    }

  private:
    [[nodiscard]] float x_of(const RatePoint& point) const {
        return plot_.right() - plot_.w * static_cast<float>(point.minutes_ago / figures_.recent_minutes);
    }
    [[nodiscard]] float y_of(double rate_tph) const {
        return plot_.bottom() -
               plot_.h * static_cast<float>(std::min(rate_tph / figures_.rate_scale_tph, 1.0));
    }
    void draw_band() {
        const ImU32 colour = Canvas::packed(canvas_.palette().rate, 0.28F);
        for (std::size_t i = 1; i < figures_.recent.size(); ++i) {
            const RatePoint& a = figures_.recent[i - 1];
            const RatePoint& b = figures_.recent[i];
            if (apart(a, b)) continue;
            canvas_.list().AddRectFilled({x_of(a), std::min(y_of(a.high_tph), y_of(b.high_tph))},
                                         {x_of(b), std::max(y_of(a.low_tph), y_of(b.low_tph))}, colour);
        }
    }
    void draw_line() {
        for (std::size_t i = 1; i < figures_.recent.size(); ++i) {
            const RatePoint& a = figures_.recent[i - 1];
            const RatePoint& b = figures_.recent[i];
            if (apart(a, b)) continue;
            canvas_.line({x_of(a), y_of(a.rate_tph)}, {x_of(b), y_of(b.rate_tph)}, canvas_.palette().rate,
                         2.5F);
        }
    }
    // A gap in the data stays a gap.
    static bool apart(const RatePoint& a, const RatePoint& b) { return a.minutes_ago - b.minutes_ago > 0.2; }

    Canvas& canvas_;
    Box plot_;
    const DriverFigures& figures_;
};

}  // namespace

void draw_rate_panel(Canvas& canvas, Box area, const DriverFigures& figures) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.panel(area);
    area = area.inset(16 * unit);
    canvas.text(area.take_top(Canvas::line_of(fonts.text)), fonts.text, palette.quiet,
                figures.say(Text::load_rate));
    const float high = Canvas::line_of(fonts.figure);
    const float low = Canvas::line_of(fonts.text);
    const float tall = Canvas::line_of(fonts.great) * 0.64F;  // of figures alone
    const std::string unit_word = unit_name(figures.say, Quantity::rate);
    const std::string under = figures.known ? unit_word + ", " + figures.say(Text::nine_in_ten) : unit_word;
    // The minutes lie below the figure, or beside it where there is no room below. Where they would take its
    // own words' room there, they are left out.
    const float needed = Canvas::width_of(fonts.text, under) * kLeastPx / fonts.text->FontSize;
    const bool below = area.h > std::max(1.45F * tall, tall + 3 * Canvas::line_of(fonts.label));
    const bool beside = !below && (area.w * 0.60F - 20 * unit) * 0.51F > needed;
    Box chart;
    if (below) {
        chart = area.take_bottom(area.h - tall);
        chart.take_top(std::min(8 * unit, chart.h * 0.1F));
    } else if (beside) {
        chart = area.take_right(area.w * 0.40F, 20 * unit);
    }
    Box words = area.take_right(area.w * (beside ? 0.51F : 0.50F));
    words = {words.x, words.y + (words.h - high - low) / 2, words.w, high + low};
    // Digits fill less of their line than letters: at full size they still stay within the panel's part.
    const float air = 0.05F * Canvas::line_of(fonts.great);
    const Box digits = {area.x, area.y - air, area.w, area.h + 2 * air};
    canvas.text(digits, fonts.great, palette.text, figures.known ? figures.rate : "\xE2\x80\x93",
                Align::centre);
    canvas.text(words.take_top(high), fonts.figure, palette.rate, figures.rate_interval);
    canvas.text(words, fonts.text, palette.quiet, under);
    if (!figures.known || (!below && !beside)) return;
    const Box axis = chart.take_bottom(Canvas::line_of(fonts.label));
    chart.take_top(10 * unit);
    chart.take_left(52 * unit);
    RecentChart(canvas, chart, figures).draw();
    const Box axis_text = {chart.x, axis.y, chart.w, axis.h};
    canvas.text(axis_text, fonts.label, palette.quiet,
                figures.say(Text::minutes_ago, {figures.say.number(figures.recent_minutes, 0)}));
    canvas.text(axis_text, fonts.label, palette.quiet, figures.say(Text::now), Align::right);
}

}  // namespace podrate::ui
