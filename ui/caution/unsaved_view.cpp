#include "caution/unsaved_view.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

Text text_of(UnsavedBefore before) {
    switch (before) {
        case UnsavedBefore::other_day: return Text::unsaved_open;
        case UnsavedBefore::writing: return Text::unsaved_write;
        case UnsavedBefore::quitting: break;
    }
    return Text::unsaved_quit;
}

}  // namespace

void draw_unsaved_view(Canvas& canvas, const Box& whole, const std::vector<std::string>& lines,
                       UnsavedBefore before, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.fill(whole, palette.ground);
    const float width = std::min(1120 * unit, whole.w - 60 * unit);
    Box area = {whole.x + (whole.w - width) / 2, whole.y + 60 * unit, width, whole.h - 90 * unit};
    canvas.text(area.take_top(Canvas::line_of(fonts.strong), 24 * unit), fonts.strong, palette.warning,
                say(Text::unsaved_title));
    const std::string keys = say(text_of(before));
    const float keys_high = Canvas::lines_of(fonts.text, keys, width) * Canvas::line_of(fonts.text);
    canvas.lines(area.take_bottom(keys_high, 12 * unit), fonts.text, palette.quiet, keys);
    for (const std::string& words : lines) {
        const float high = Canvas::lines_of(fonts.text, words, width) * Canvas::line_of(fonts.text);
        canvas.lines(area.take_top(high, 8 * unit), fonts.text, palette.text, words);
    }
}

}  // namespace podrate::ui
