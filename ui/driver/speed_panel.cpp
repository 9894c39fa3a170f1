#include "driver/speed_panel.hpp"

#include <algorithm>

#include "driver/great_figure.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr float kLittleSmaller = 0.85F;

constexpr const char* kDash = "\xE2\x80\x93";

std::string or_dash(const std::string& figure) {
    return figure.empty() ? kDash : figure;
}

void draw_right(Canvas& canvas, Box area, const SpeedFigures& s, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    canvas.text(area.take_top(Canvas::line_of(fonts.text)), fonts.text, palette.quiet,
                say(s.later ? Text::right_later : Text::right_speed));
    Box row = area;
    if (!s.advised) {
        row.take_top(row.h * 0.08F);
        canvas.lines(row, fonts.strong, palette.text, s.why);
        return;
    }
    row.take_left(draw_great(canvas, row, palette.rate, or_dash(s.right)) + 12 * canvas.unit());
    if (!s.right_interval.empty()) draw_interval(canvas, row, s.right_interval, say);
}

// Faster above slower, in columns as wide as their words need, narrower where all would not fit.
void draw_steps(Canvas& canvas, Box area, const SpeedFigures& s) {
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().text;
    const float gap = 16 * canvas.unit();
    const auto widest = [&](std::string StepLine::*words) {
        return std::max(Canvas::width_of(font, s.faster.*words), Canvas::width_of(font, s.slower.*words)) +
               1.0F;
    };
    const float speed = widest(&StepLine::speed);
    const float rate = widest(&StepLine::rate);
    const float share = std::min(1.0F, (area.w - 2 * gap) / (speed + rate + widest(&StepLine::ground)));
    for (const StepLine* step : {&s.faster, &s.slower}) {
        Box line = area.take_top(Canvas::line_of(font));
        canvas.text(line.take_left(speed * share, gap), font, palette.quiet, step->speed);
        canvas.text(line.take_left(rate * share, gap), font, palette.text, step->rate);
        canvas.text(line, font, palette.text, step->ground);
    }
}

// Why it is right, as large as the room allows.
void draw_reason(Canvas& canvas, const Box& area, const SpeedFigures& s) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const Rgb colour = s.past_fold ? palette.warning : palette.text;
    const float strong = Canvas::line_of(fonts.strong);
    if (strong <= area.h && Canvas::width_of(fonts.strong, s.reason) * kLittleSmaller <= area.w) {
        // Below the comma of a figure.
        const float lower = std::min((area.h - strong) / 2, strong / 4);
        canvas.text({area.x, area.y + lower, area.w, strong}, fonts.strong, colour, s.reason);
        return;
    }
    const bool fits = Canvas::lines_of(fonts.strong, s.reason, area.w) * strong <= area.h;
    canvas.lines(area, fits ? fonts.strong : fonts.text, colour, s.reason);
}

}  // namespace

void draw_speed_panel(Canvas& canvas, Box area, const DriverFigures& f) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.panel(area);
    area = area.inset(16 * unit);
    const SpeedFigures& s = f.speed;
    const float text = Canvas::line_of(fonts.text);
    const float below = 2 * unit + 3 * text;
    Box row = area.take_top(text + great_line(canvas, area.h - text - below), 2 * unit);
    Box now = row.take_left(row.w * 0.385F, 12 * unit);
    canvas.text(now.take_top(text), fonts.text, palette.quiet,
                f.say(Text::speed) + ", " + unit_name(f.say, Quantity::speed));
    draw_great(canvas, now, palette.text, or_dash(s.now));
    if (!f.known) return;
    draw_right(canvas, row, s, f.say);
    const Box steps = area.take_bottom(2 * text);
    if (!s.reason.empty()) draw_reason(canvas, area, s);
    if (!s.steps) return;
    draw_steps(canvas, steps, s);
}

}  // namespace podrate::ui
