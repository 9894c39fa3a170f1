#include "caution/unsaved_view.hpp"

#include <algorithm>

namespace podrate::ui {

void draw_unsaved_view(Canvas& canvas, const Box& whole, const std::vector<std::string>& lines,
                       bool for_other_day, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float unit = canvas.unit();
    canvas.fill(whole, palette.ground);
    const float width = std::min(1120 * unit, whole.w - 60 * unit);
    Box area = {whole.x + (whole.w - width) / 2, whole.y + 60 * unit, width, whole.h - 90 * unit};
    canvas.text(area.take_top(Canvas::line_of(fonts.strong), 24 * unit), fonts.strong, palette.warning,
                say(Text::unsaved_title));
    const std::string keys = say(for_other_day ? Text::unsaved_open : Text::unsaved_quit);
    const float keys_high = Canvas::lines_of(fonts.text, keys, width) * Canvas::line_of(fonts.text);
    canvas.lines(area.take_bottom(keys_high, 12 * unit), fonts.text, palette.quiet, keys);
    for (const std::string& words : lines) {
        const float high = Canvas::lines_of(fonts.text, words, width) * Canvas::line_of(fonts.text);
        canvas.lines(area.take_top(high, 8 * unit), fonts.text, palette.text, words);
    }
}

}  // namespace podrate::ui
