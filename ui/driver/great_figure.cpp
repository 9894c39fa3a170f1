#include "driver/great_figure.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr float kFigureShare = 0.62F;  // of a line: digits have no descenders
constexpr float kWholeShare = 0.70F;   // ... and the line that their size needs

}  // namespace

float great_line(const Canvas& canvas, float room) {
    const float whole = Canvas::line_of(canvas.fonts().great) * kFigureShare;
    return std::clamp(room, whole / 2, whole);
}

float draw_great(Canvas& canvas, const Box& row, Rgb colour, const std::string& figure) {
    ImFont* font = canvas.fonts().great;
    const float air = row.h * (kWholeShare / kFigureShare - 1.0F) / 2;
    return canvas.figure({row.x, row.y - air, row.w, row.h + 2 * air}, font, colour, figure);
}

void draw_interval(Canvas& canvas, Box beside, const std::string& interval, const Speech& say,
                   const std::string& source) {
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const float strong = Canvas::line_of(fonts.strong);
    const float label = Canvas::line_of(fonts.label);
    beside.take_top(std::max(0.0F, (beside.h - strong - (source.empty() ? 1.0F : 2.0F) * label) / 2));
    canvas.text(beside.take_top(strong), fonts.strong, palette.rate, interval);
    canvas.text(beside.take_top(label), fonts.label, palette.quiet, say(Text::nine_in_ten));
    canvas.text(beside.take_top(label), fonts.label, palette.quiet, source);
}

}  // namespace podrate::ui
