#include "driver/driver_view.hpp"

#include <algorithm>

#include "driver/day_panel.hpp"
#include "driver/hopper_panel.hpp"
#include "driver/loss_panel.hpp"
#include "driver/message_bar.hpp"
#include "driver/rate_panel.hpp"
#include "driver/speed_panel.hpp"

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

void draw_head(Canvas& canvas, Box area, const DriverFigures& f, bool with_shelf) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    const Rgb colour = f.known ? colour_of(f.state, palette) : palette.warning;
    const float word_width = Canvas::width_of(canvas.fonts().figure, f.state_word) + 40 * unit;
    const Box plate = area.take_left(std::min(word_width, area.w * 0.6F), 20 * unit);
    canvas.fill(plate, colour, 8.0F);
    canvas.text({plate.x + 20 * unit, plate.y, plate.w - 40 * unit, plate.h}, canvas.fonts().figure,
                palette.on_mark, f.state_word);
    const float clock_width = Canvas::width_of(canvas.fonts().figure, f.clock);
    const Box clock = area.take_right(clock_width, 16 * unit);
    canvas.text(clock, canvas.fonts().figure, palette.text, f.clock, Align::right);
    Box names = area;
    if (with_shelf && !f.answers.shelf.empty()) {
        canvas.text(names.take_bottom(names.h / 2), canvas.fonts().label, palette.warning, f.answers.shelf);
        canvas.text(names, canvas.fonts().text, palette.text, f.machine);
        return;
    }
    const bool room = Canvas::width_of(canvas.fonts().label, f.day) <= names.w;
    canvas.text(room ? names.take_top(names.h / 2) : names, canvas.fonts().text, palette.text, f.machine);
    if (room) canvas.text(names, canvas.fonts().label, palette.quiet, f.day);
}

// Where the panels stand. Left: what to do; right: what comes of it. Upright: one below the other.
struct Places {
    Box speed;
    Box loss;
    Box rate;
    Box hopper;
    Box day;
};

Places places_in(Box area, float gap) {
    Places places;
    if (upright(area.w, area.h)) {
        places.speed = area.take_top((area.h - 3 * gap) * 0.28F, gap);
        places.loss = area.take_top((area.h - 2 * gap) * 0.39F, gap);
        places.rate = area.take_top((area.h - gap) * 0.46F, gap);
    } else {
        Box left = area.take_left((area.w - gap) * 0.51F, gap);
        const float upper = (left.h - gap) * 0.505F;
        places.speed = left.take_top(upper, gap);
        places.loss = left;
        places.rate = area.take_top(upper, gap);
    }
    places.hopper = area.take_left((area.w - gap) * 0.635F, gap);
    places.day = area;
    return places;
}

}  // namespace

float driver_unit(const Canvas& canvas, float width_px, float height_px, float scale, float touch_px) {
    const bool stands = upright(width_px, height_px);
    const float more = message_bar_height(canvas, stands, touch_px) - message_bar_height(canvas, stands);
    return unit_for(width_px, height_px - more, scale);
}

std::optional<AlarmOrder> draw_driver_view(Canvas& canvas, const Box& whole, const DriverFigures& f,
                                           float touch_px) {
    canvas.fill(whole, canvas.palette().ground);
    const float unit = canvas.unit();
    const float gap = 10 * unit;
    Box area = whole.inset(gap);
    const bool stands = upright(whole.w, whole.h);
    draw_head(canvas, area.take_top(64 * unit, gap), f, !stands);
    const Box bar = area.take_bottom(message_bar_height(canvas, stands, touch_px), gap);
    // Upright the head is too narrow for what is put off.
    ImFont* label = canvas.fonts().label;
    if (stands && touch_px > 0.0F)
        canvas.text(area.take_bottom(Canvas::line_of(label)), label, canvas.palette().warning,
                    f.answers.shelf);
    const Places places = places_in(area, gap);
    draw_speed_panel(canvas, places.speed, f);
    draw_loss_panel(canvas, places.loss, f);
    draw_rate_panel(canvas, places.rate, f);
    draw_hopper_panel(canvas, places.hopper, f);
    draw_day_panel(canvas, places.day, f);
    return draw_message_bar(canvas, bar, f, touch_px);
}

}  // namespace podrate::ui
