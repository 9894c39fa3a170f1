#include "driver/great_figure.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr float kFigureShare = 0.84F;  // of a line

}  // namespace

float great_line(const Canvas& canvas) {
    return Canvas::line_of(canvas.fonts().great) * kFigureShare;
}

void draw_interval(Canvas& canvas, Box beside, const std::string& interval, const Speech& say) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float strong = Canvas::line_of(fonts.strong);
    const float label = Canvas::line_of(fonts.label);
    beside.take_top(std::max(0.0F, (beside.h - strong - label) / 2));
    canvas.text(beside.take_top(strong), fonts.strong, palette.rate, interval);
    canvas.text(beside.take_top(label), fonts.label, palette.quiet, say(Text::nine_in_ten));
}

}  // namespace podrate::ui
