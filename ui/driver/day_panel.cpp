#include "driver/day_panel.hpp"

#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

// A figure in strong with its unit.
void draw_value(Canvas& canvas, Box line, const std::string& figure, const std::string& unit_word) {
    const Palette& palette = canvas.palette();
    const float width = canvas.text(line, canvas.fonts().strong, palette.text, figure);
    line.take_left(width + 10 * canvas.unit());
    canvas.text(line, canvas.fonts().text, palette.quiet, unit_word);
}

}  // namespace

void draw_day_panel(Canvas& canvas, Box area, const DriverFigures& f) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.panel(area);
    area = area.inset(16 * unit);
    const float text = Canvas::line_of(fonts.text);
    const float strong = Canvas::line_of(fonts.strong);
    const float label = Canvas::line_of(fonts.label);
    const bool cut = !f.area_cut.empty();
    canvas.text(area.take_top(text), fonts.text, palette.quiet, f.say(Text::yield_here));
    draw_value(canvas, area.take_top(strong), cut ? f.yield_here : "\xE2\x80\x93",
               unit_name(f.say, Quantity::yield));
    canvas.text(area.take_top(label, 8 * unit), fonts.label, palette.quiet, cut ? f.yield_interval : "");
    if (!f.known) return;
    canvas.text(area.take_top(text), fonts.text, palette.quiet, f.total_since);
    draw_value(canvas, area.take_top(strong), f.total, unit_name(f.say, Quantity::total));
    canvas.text(area.take_top(label), fonts.label, palette.quiet, f.total_doubt);
    if (cut && area.h >= label)
        canvas.text(area.take_top(label), fonts.label, palette.quiet, f.say(Text::area_cut, {f.area_cut}));
}

}  // namespace podrate::ui
