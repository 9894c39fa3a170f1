#include "caution/caution_view.hpp"

#include "model/words.hpp"

namespace podrate::ui {

void draw_caution_view(Canvas& canvas, const Box& whole) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    canvas.fill(whole, palette.ground);
    Box area = {whole.x + whole.w / 2 - 560 * unit, whole.y + 90 * unit, 1120 * unit, whole.h - 150 * unit};
    canvas.text(area.take_top(80 * unit, 30 * unit), canvas.fonts().large, palette.text, "Before you drive");
    for (const char* words : kStartCautions) {
        Box line = area.take_top(54 * unit, 12 * unit);
        const Box mark = line.take_left(10 * unit, 20 * unit);
        canvas.fill({mark.x, mark.y + 12 * unit, mark.w, mark.h - 24 * unit}, palette.warning, 3.0F);
        canvas.text(line, canvas.fonts().text, palette.text, words);
    }
    canvas.text(area.take_bottom(50 * unit), canvas.fonts().text, palette.quiet, "Space, or a touch: go on");
}

}  // namespace podrate::ui
