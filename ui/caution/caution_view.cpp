#include "caution/caution_view.hpp"

#include <algorithm>

#include "model/words.hpp"

namespace podrate::ui {

void draw_caution_view(Canvas& canvas, const Box& whole, const Speech& say) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    canvas.fill(whole, palette.ground);
    const Fonts& fonts = canvas.fonts();
    const float width = std::min(1120 * unit, whole.w - 60 * unit);
    Box area = {whole.x + (whole.w - width) / 2, whole.y + 90 * unit, width, whole.h - 150 * unit};
    canvas.text(area.take_top(80 * unit, 30 * unit), fonts.large, palette.text, say(Text::caution_title));
    for (const Text caution : kStartCautions) {
        const std::string words = say(caution);
        const float line = Canvas::line_of(fonts.text);
        const float text_width = area.w - 30 * unit;
        Box row = area.take_top(Canvas::lines_of(fonts.text, words, text_width) * line, 30 * unit);
        const Box mark = row.take_left(10 * unit, 20 * unit);
        canvas.fill(mark, palette.warning, 3.0F);
        canvas.lines(row, fonts.text, palette.text, words);
    }
    canvas.text(area.take_bottom(50 * unit), fonts.text, palette.quiet, say(Text::caution_go_on));
}

}  // namespace podrate::ui
