#include "driver/loss_panel.hpp"

#include <algorithm>

#include "driver/great_figure.hpp"

namespace podrate::ui {
namespace {

constexpr float kBarUnits = 26.0F;

// The interval on a scale from nothing to `scale`, so that a wide one is seen to be wide; the limit as a
// mark.
void draw_bar(Canvas& canvas, Box area, const LossFigures& loss) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    ImFont* font = canvas.fonts().label;
    const float width = Canvas::width_of(font, loss.scale_words);
    canvas.text(area.take_right(width, 12 * unit), font, palette.quiet, loss.scale_words, Align::right);
    canvas.text(area.take_left(Canvas::width_of(font, "0"), 10 * unit), font, palette.quiet, "0");
    const float middle = area.y + area.h / 2;
    const auto x_of = [&](double share) {
        return area.x + area.w * static_cast<float>(std::clamp(share / loss.scale, 0.0, 1.0));
    };
    const float thick = 14 * unit;
    canvas.fill({area.x, middle - 2 * unit, area.w, 4 * unit}, palette.rule);
    canvas.fill({x_of(loss.low), middle - thick / 2, x_of(loss.high) - x_of(loss.low), thick}, palette.rate,
                4.0F);
    if (loss.sureness != Sureness::guess)
        canvas.fill({x_of(loss.share) - 4 * unit, area.y, 8 * unit, area.h}, palette.text, 2.0F);
    canvas.fill({x_of(loss.limit) - 2 * unit, area.y, 4 * unit, area.h}, palette.warning);
}

}  // namespace

void draw_loss_panel(Canvas& canvas, Box area, const DriverFigures& f) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.panel(area);
    area = area.inset(16 * unit);
    const LossFigures& loss = f.loss;
    const float text = Canvas::line_of(fonts.text);
    Box head = area.take_top(text);
    canvas.text(head, fonts.text, palette.quiet,
                f.say(loss.known && !loss.now ? Text::lost_usual : Text::lost));
    if (!f.known) return;
    if (!loss.known) {
        canvas.lines(area, fonts.strong, palette.text, f.say(Text::lost_unknown));
        return;
    }
    canvas.text(head, fonts.text, palette.text, loss.sure, Align::right);
    const float bar = std::max(kBarUnits * unit, Canvas::line_of(fonts.label));
    Box row = area.take_top(great_line(canvas, area.h - 2 * text - bar));
    // A range is long: it leaves the words beside it their room.
    const float gap = 24 * unit;
    const float words_wide = Canvas::width_of(fonts.label, f.say(Text::nine_in_ten)) + 1.0F;
    const Box figure = {row.x, row.y, std::max(row.w / 2, row.w - gap - words_wide), row.h};
    row.take_left(draw_great(canvas, figure, palette.text, loss.figure) + gap);
    // What it is judged from stands beside the figure, or below all; where room is short, it is left out.
    const bool beside = Canvas::width_of(fonts.label, loss.source) <= row.w;
    const bool below = !beside && area.h >= 3 * text + bar;
    draw_interval(canvas, row, loss.interval, f.say, beside ? loss.source : std::string());
    Box words = area.take_bottom((below ? 3 : 2) * text);
    Box ground = words.take_top(text);
    const float limit = Canvas::width_of(fonts.label, loss.limit_words);
    canvas.text(ground.take_right(limit, 10 * unit), fonts.label, palette.warning, loss.limit_words);
    const Box key = ground.take_right(4 * unit, 16 * unit);
    canvas.fill({key.x, key.y + 6 * unit, key.w, key.h - 12 * unit}, palette.warning);
    canvas.text(ground, fonts.text, palette.text, loss.ground);
    canvas.text(words.take_top(text), fonts.text, palette.text, loss.apart);
    if (below) canvas.text(words, fonts.text, palette.quiet, loss.source);
    const float tall = std::min(area.h, bar);
    draw_bar(canvas, {area.x, area.y + (area.h - tall) / 2, area.w, tall}, loss);
}

}  // namespace podrate::ui
