#include "driver/speed_panel.hpp"

#include "driver/great_figure.hpp"

namespace podrate::ui {
namespace {

constexpr float kLittleSmaller = 0.85F;

constexpr const char* kDash = "\xE2\x80\x93";

// A great figure with its unit behind it. Returns where it ends.
float draw_figure(Canvas& canvas, const Box& area, Rgb colour, const std::string& figure) {
    const float unit = canvas.unit();
    const float width =
        canvas.text(area, canvas.fonts().great, colour, figure.empty() ? kDash : figure) + 12 * unit;
    const float baseline = area.y + area.h * 0.5F;
    const Box word = {area.x + width, baseline, 90 * unit, area.h * 0.42F};
    return word.x + canvas.text(word, canvas.fonts().text, canvas.palette().quiet, "km/h");
}

void draw_right(Canvas& canvas, Box area, const SpeedFigures& s) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    canvas.text(area.take_top(Canvas::line_of(fonts.text)), fonts.text, palette.quiet,
                s.later ? "Right when going on" : "Right speed");
    Box row = area.take_top(great_line(canvas));
    if (!s.advised) {
        row.take_top(row.h * 0.08F);
        canvas.lines(row, fonts.strong, palette.text, s.why);
        return;
    }
    const float end = draw_figure(canvas, row, palette.rate, s.right_kmph) + 20 * canvas.unit();
    if (s.right_interval.empty()) return;
    draw_interval(canvas, {end, row.y, row.right() - end, row.h}, s.right_interval);
}

void draw_step(Canvas& canvas, Box line, const StepLine& step) {
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().text;
    const float width = line.w;
    canvas.text(line.take_left(width * 0.34F), font, palette.quiet, step.speed);
    canvas.text(line.take_left(width * 0.22F), font, palette.text, step.rate);
    canvas.text(line, font, palette.text, step.ground);
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
    canvas.text(now.take_top(text), fonts.text, palette.quiet, "Speed");
    draw_figure(canvas, now, palette.text, s.now_kmph);
    if (!f.known) return;
    draw_right(canvas, row, s);
    Box steps = area.take_bottom(2 * text);
    if (!s.reason.empty()) draw_reason(canvas, area, s);
    if (!s.steps) return;
    draw_step(canvas, steps.take_top(text), s.faster);
    draw_step(canvas, steps, s.slower);
}

}  // namespace podrate::ui
