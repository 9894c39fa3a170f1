#include "loading/loading_view.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr float kWidthUnits = 760.0F;
constexpr float kProgressUnits = 22.0F;

Box middle(const Canvas& canvas, const Box& area, float height) {
    const float width = std::min(kWidthUnits * canvas.unit(), area.w - 40 * canvas.unit());
    return {area.x + (area.w - width) / 2, area.y + (area.h - height) / 2, width, height};
}

void draw_bar(Canvas& canvas, const Box& bar, double share) {
    canvas.fill(bar, canvas.palette().rule, 6.0F);
    canvas.fill({bar.x, bar.y, bar.w * static_cast<float>(std::clamp(share, 0.0, 1.0)), bar.h},
                canvas.palette().rate, 6.0F);
}

}  // namespace

float opening_line_height(const Canvas& canvas) {
    return Canvas::line_of(canvas.fonts().label) + 20 * canvas.unit();
}

void draw_opening_line(Canvas& canvas, Box area, const std::string& name, double share, const Speech& say) {
    const float unit = canvas.unit();
    area = area.inset(10 * unit);
    const Box words = area.take_left(area.w * 0.5F, 16 * unit);
    canvas.text(words, canvas.fonts().label, canvas.palette().quiet,
                say(Text::opening, {name, say.percent(share)}));
    draw_bar(canvas, {area.x, area.y + area.h / 2 - 6 * unit, area.w, 12 * unit}, share);
}

void draw_nothing_open(Canvas& canvas, const Box& area, const Speech& say) {
    canvas.fill(area, canvas.palette().ground);
    canvas.text(area.inset(20 * canvas.unit()), canvas.fonts().text, canvas.palette().text,
                say(Text::opening_none), Align::centre);
}

void draw_opening_view(Canvas& canvas, const Box& area, const std::string& name, double share,
                       const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.fill(area, palette.ground);
    const float strong = Canvas::line_of(fonts.strong);
    const float text = Canvas::line_of(fonts.text);
    Box rest = middle(canvas, area, strong + text + (kProgressUnits + 36) * unit);
    canvas.text(rest.take_top(strong, 12 * unit), fonts.strong, palette.text,
                say(Text::opening, {name, say.percent(share)}));
    draw_bar(canvas, rest.take_top(kProgressUnits * unit, 12 * unit), share);
    canvas.text(rest.take_top(text), fonts.text, palette.quiet, say(Text::opening_stop));
}

void draw_refusal_view(Canvas& canvas, const Box& area, const std::string& why, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.fill(area, palette.ground);
    const float strong = Canvas::line_of(fonts.strong);
    const float text = Canvas::line_of(fonts.text);
    const float lines = 6 * text;
    Box rest = middle(canvas, area, strong + lines + text + 36 * unit);
    canvas.text(rest.take_top(strong, 12 * unit), fonts.strong, palette.warning, say(Text::opening_failed));
    canvas.lines(rest.take_top(lines, 12 * unit), fonts.text, palette.text, why);
    canvas.text(rest.take_top(text), fonts.text, palette.quiet, say(Text::opening_back));
}

}  // namespace podrate::ui
