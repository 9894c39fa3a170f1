#include "driver/message_bar.hpp"

#include <algorithm>

#include "driver/answer_targets.hpp"

namespace podrate::ui {
namespace {

struct Message {
    Telling words;
    std::string behind;
    bool high = false;
};

Message message_of(const DriverFigures& f) {
    if (!f.known) return {f.no_data, "", true};
    if (f.alarm.shown)
        return {{f.alarm.what, f.alarm.check}, f.alarm.behind, f.alarm.priority == AlarmPriority::high};
    return {};
}

// Words that may be long: as large as one line allows, wrapped where there is room for more.
void draw_check(Canvas& canvas, const Box& area, Rgb colour, const std::string& words) {
    ImFont* font = canvas.fonts().text;
    const bool roomy = area.h >= 2 * Canvas::line_of(font);
    if (!roomy && Canvas::width_of(font, words) > area.w) font = canvas.fonts().label;
    canvas.lines(area, font, colour, words);
}

// As large as its box holds all of it; smaller than the type of the check never.
void draw_what(Canvas& canvas, const Box& area, Rgb colour, const std::string& words) {
    ImFont* font = canvas.fonts().strong;
    for (ImFont* smaller : {canvas.fonts().text, canvas.fonts().label}) {
        if (Canvas::lines_of(font, words, area.w) * Canvas::line_of(font) <= area.h) break;
        font = smaller;
    }
    canvas.lines(area, font, colour, words);
}

// Where nothing is the matter: the loads tipped last, as many as there is room for.
void draw_loads(Canvas& canvas, Box area, const DriverFigures& f) {
    if (!f.known) return;
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().text;
    const float unit = canvas.unit();
    const std::string label = f.say(f.loads.empty() ? Text::no_load : Text::last_loads);
    area = {area.x + 16 * unit, area.y, area.w - 32 * unit, std::min(area.h, 2 * Canvas::line_of(font))};
    canvas.text(area, font, palette.quiet, label);
    area.take_left(Canvas::width_of(font, label) + 28 * unit);
    for (const LoadLine& load : f.loads) {
        const float clock = Canvas::width_of(font, load.clock) + 12 * unit;
        const float mass = Canvas::width_of(font, load.mass);
        if (clock + mass > area.w) break;
        canvas.text(area.take_left(clock), font, palette.quiet, load.clock);
        canvas.text(area.take_left(mass, 36 * unit), font, palette.text, load.mass);
    }
}

void draw_message(Canvas& canvas, Box area, const DriverFigures& f) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    const Message message = message_of(f);
    if (message.words.what.empty()) {
        if (f.caution.empty()) {
            draw_loads(canvas, area, f);
            return;
        }
        area = {area.x + 16 * unit, area.y + 6 * unit, area.w - 32 * unit, area.h - 12 * unit};
        draw_check(canvas, area, palette.text, f.caution);
        return;
    }
    const Box inner = {area.x + 22 * unit, area.y + 6 * unit, area.w - 38 * unit, area.h - 12 * unit};
    const float strong = Canvas::line_of(fonts.strong);
    Box first = {inner.x, inner.y, inner.w, strong};
    const float behind = Canvas::width_of(fonts.text, message.behind);
    if (behind > 0.0F) first.w -= behind + 20 * unit;
    const bool roomy = area.h > 2 * (strong + Canvas::line_of(fonts.label)) + 18 * unit;
    if (roomy && Canvas::width_of(fonts.strong, message.words.what) > first.w) first.h = 2 * strong;
    // All have a mark at their edge; the highest a filled line too, no more, so that the night stays dark.
    canvas.panel(area);
    canvas.fill({area.x, area.y, 10 * unit, area.h}, palette.warning, 3.0F);
    if (message.high) canvas.fill({area.x, area.y, area.w, first.h + 10 * unit}, palette.warning, 6.0F);
    const Rgb colour = message.high ? palette.on_mark : palette.text;
    draw_what(canvas, first, colour, message.words.what);
    if (behind > 0.0F)
        canvas.text({inner.right() - behind, inner.y, behind, strong}, fonts.text, colour, message.behind,
                    Align::right);
    const float below = first.bottom() + (message.high ? 6 * unit : 0.0F);
    draw_check(canvas, {inner.x, below, inner.w, area.bottom() - 4 * unit - below}, palette.text,
               message.words.check);
}

}  // namespace

float message_bar_height(const Canvas& canvas, bool upright, float touch_px) {
    const Fonts& fonts = canvas.fonts();
    const float strong = Canvas::line_of(fonts.strong);
    const float text = Canvas::line_of(fonts.text);
    const float height = 16 * canvas.unit() + (upright ? 2 * strong + 2 * text : strong + text);
    if (touch_px <= 0.0F) return height;
    // Beside targets words wrap.
    const float wrapped = 20 * canvas.unit() + (upright ? 2 * strong : strong) +
                          (upright ? 4.0F : 3.0F) * Canvas::line_of(fonts.label);
    return std::max({height, wrapped, touch_px + 12 * canvas.unit()});
}

std::optional<AlarmOrder> draw_message_bar(Canvas& canvas, Box area, const DriverFigures& f, float touch_px) {
    const std::optional<AlarmAnswer> touched = draw_answer_targets(canvas, area, f.answers, touch_px);
    draw_message(canvas, area, f);
    if (!touched) return std::nullopt;
    return AlarmOrder{*touched, f.alarm.alarm};
}

}  // namespace podrate::ui
