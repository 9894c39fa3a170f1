#include "driver/driver_view.hpp"

#include "driver/hopper_panel.hpp"
#include "driver/rate_panel.hpp"

namespace podrate::ui {
namespace {

Rgb colour_of(WorkState state, const Palette& palette) {
    switch (state) {
        case WorkState::harvesting: return palette.working;
        case WorkState::turning:
        case WorkState::travelling:
        case WorkState::tipping: return palette.moving;
        case WorkState::paused_in_crop:
        case WorkState::waiting:
        case WorkState::stopped: return palette.standing;
    }
    return palette.standing;
}

void draw_head(Canvas& canvas, Box area, const DriverFigures& f) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    const Rgb colour = f.known ? colour_of(f.state, palette) : palette.warning;
    const float word_width = Canvas::width_of(canvas.fonts().figure, f.state_word) + 48 * unit;
    const Box plate = area.take_left(std::min(word_width, area.w * 0.6F), 24 * unit);
    canvas.fill(plate, colour, 8.0F);
    canvas.text({plate.x + 24 * unit, plate.y, plate.w - 48 * unit, plate.h}, canvas.fonts().figure,
                palette.on_mark, f.state_word);
    const Box clock = area.take_right(250 * unit, 20 * unit);
    canvas.text(clock, canvas.fonts().figure, palette.text, f.clock, Align::right);
    Box names = area;
    canvas.text(names.take_top(names.h / 2), canvas.fonts().text, palette.text, f.machine);
    canvas.text(names, canvas.fonts().label, palette.quiet, f.day);
}

// One figure with its label above and its unit and interval beside and below.
void draw_figure(Canvas& canvas, Box area, const std::string& label, const std::string& figure,
                 const char* unit_word, const std::string& below) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    canvas.panel(area);
    area = area.inset(16 * unit);
    canvas.text(area.take_top(30 * unit), canvas.fonts().text, palette.quiet, label);
    const Box under = area.take_bottom(28 * unit);
    canvas.text(under, canvas.fonts().label, palette.quiet, below);
    Box value = area;
    const float width =
        canvas.text(value, canvas.fonts().large, palette.text, figure.empty() ? "\xE2\x80\x93" : figure);
    value.take_left(std::min(width, value.w) + 10 * unit);
    if (value.w > 20 * unit) {
        value.y += 8 * unit;
        canvas.text(value, canvas.fonts().text, palette.quiet, unit_word);
    }
}

void draw_loads(Canvas& canvas, Box area, const DriverFigures& f) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    canvas.panel(area);
    area = area.inset(16 * unit);
    canvas.text(area.take_top(30 * unit), canvas.fonts().text, palette.quiet, "Last loads");
    if (f.loads.empty()) {
        canvas.text(area.take_top(34 * unit), canvas.fonts().text, palette.text, "none tipped yet");
        return;
    }
    const float row = std::min(34 * unit, area.h / 4);
    for (const LoadLine& load : f.loads) {
        Box line = area.take_top(row);
        canvas.text(line.take_left(line.w * 0.12F), canvas.fonts().label, palette.quiet, load.number);
        canvas.text(line.take_left(line.w * 0.30F), canvas.fonts().text, palette.text, load.clock);
        canvas.text(line.take_left(line.w * 0.50F), canvas.fonts().text, palette.text, load.mass);
        canvas.text(line, canvas.fonts().label, palette.quiet, load.doubt, Align::right);
    }
}

void draw_message(Canvas& canvas, const Box& area, const DriverFigures& f) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    const Box words = {area.x + 16 * unit, area.y, area.w - 32 * unit, area.h};
    if (!f.fault.empty()) {
        canvas.fill(area, palette.warning, 6.0F);
        canvas.text(words, canvas.fonts().text, palette.on_mark, f.fault);
    } else if (!f.caution.empty()) {
        canvas.text(words, canvas.fonts().text, palette.text, f.caution);
    }
}

}  // namespace

void draw_driver_view(Canvas& canvas, const Box& whole, const DriverFigures& f) {
    canvas.fill(whole, canvas.palette().ground);
    const float unit = canvas.unit();
    const float gap = 14 * unit;
    Box area = whole.inset(gap);
    draw_head(canvas, area.take_top(76 * unit, gap), f);
    draw_message(canvas, area.take_bottom(46 * unit, 8 * unit), f);
    Box lower = area.take_bottom(190 * unit, gap);
    const Box hopper = area.take_right(area.w * 0.36F, gap);
    draw_rate_panel(canvas, area, f);
    draw_hopper_panel(canvas, hopper, f);
    const float quarter = (lower.w - 3 * gap) / 4;
    const std::string cut = f.area_ha.empty() ? "nothing cut yet" : f.area_ha + " ha cut";
    draw_figure(canvas, lower.take_left(quarter * 0.85F, gap), "Speed", f.speed_kmph, "km/h",
                f.known ? cut : "");
    draw_figure(canvas, lower.take_left(quarter, gap), "Yield here", f.yield_tpha, "t/ha",
                f.yield_interval.empty() ? "" : f.yield_interval + ", 9 times in 10");
    draw_figure(canvas, lower.take_left(quarter * 0.95F, gap), f.known ? f.total_since : "Total", f.total_t,
                "t", f.total_doubt);
    draw_loads(canvas, lower, f);
}

}  // namespace podrate::ui
