#include "driver/speed_panel.hpp"

#include <algorithm>

#include "driver/great_figure.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr float kLittleSmaller = 0.85F;

constexpr const char* kDash = "\xE2\x80\x93";

// A great figure with its unit behind it. Returns where it ends.
float draw_figure(Canvas& canvas, const Box& area, Rgb colour, const std::string& figure, const Speech& say) {
    const float unit = canvas.unit();
    const float width =
        canvas.text(area, canvas.fonts().great, colour, figure.empty() ? kDash : figure) + 12 * unit;
    const float baseline = area.y + area.h * 0.5F;
    const Box word = {area.x + width, baseline, 90 * unit, area.h * 0.42F};
    return word.x +
           canvas.text(word, canvas.fonts().text, canvas.palette().quiet, unit_name(say, Quantity::speed));
}

void draw_right(Canvas& canvas, Box area, const SpeedFigures& s, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    canvas.text(area.take_top(Canvas::line_of(fonts.text)), fonts.text, palette.quiet,
                say(s.later ? Text::right_later : Text::right_speed));
    Box row = area.take_top(great_line(canvas));
    if (!s.advised) {
        row.take_top(row.h * 0.08F);
        canvas.lines(row, fonts.strong, palette.text, s.why);
        return;
    }
    const float end = draw_figure(canvas, row, palette.rate, s.right, say) + 20 * canvas.unit();
    if (s.right_interval.empty()) return;
    draw_interval(canvas, {end, row.y, row.right() - end, row.h}, s.right_interval, say);
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
    if (Canvas::width_of(fonts.strong, s.reason) * kLittleSmaller <= area.w) {
        canvas.text({area.x, area.y, area.w, strong}, fonts.strong, colour, s.reason);
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
    const float top = text + great_line(canvas);
    Box row = area.take_top(top, 8 * unit);
    Box now = row.take_left(row.w * 0.375F, 10 * unit);
    canvas.text(now.take_top(text), fonts.text, palette.quiet, f.say(Text::speed));
    draw_figure(canvas, now, palette.text, s.now, f.say);
    if (!f.known) return;
    draw_right(canvas, row, s, f.say);
    const Box steps = area.take_bottom(2 * text);
    if (!s.reason.empty()) draw_reason(canvas, area, s);
    if (!s.steps) return;
    draw_steps(canvas, steps, s);
}

}  // namespace podrate::ui
