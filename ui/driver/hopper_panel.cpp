#include "driver/hopper_panel.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

// A bin with sloping sides, filled to the level. Width at a height, 0 bottom to 1 top.
float half_width(const Box& bin, float height_share) {
    return bin.w / 2 * (0.55F + 0.45F * std::min(1.0F, height_share / 0.7F));
}

void draw_bin(Canvas& canvas, const Box& bin, double level_share) {
    const float middle = bin.x + bin.w / 2;
    const auto y_of = [&bin](float share) { return bin.bottom() - bin.h * share; };
    const auto level = static_cast<float>(level_share);
    constexpr int kSlices = 40;
    ImVec2 last_left = {middle - half_width(bin, 0), y_of(0)};
    ImVec2 last_right = {middle + half_width(bin, 0), y_of(0)};
    const ImU32 full = Canvas::packed(canvas.palette().hopper);
    for (int i = 1; i <= kSlices; ++i) {
        const float share = static_cast<float>(i) / kSlices;
        const float to = std::min(share, level);
        const ImVec2 left = {middle - half_width(bin, to), y_of(to)};
        const ImVec2 right = {middle + half_width(bin, to), y_of(to)};
        canvas.list().AddQuadFilled(last_left, last_right, right, left, full);
        last_left = left;
        last_right = right;
        if (to < share) break;
    }
    const ImVec2 outline[] = {
        {middle - half_width(bin, 1), y_of(1)},       {middle - half_width(bin, 0.7F), y_of(0.7F)},
        {middle - half_width(bin, 0), y_of(0)},       {middle + half_width(bin, 0), y_of(0)},
        {middle + half_width(bin, 0.7F), y_of(0.7F)}, {middle + half_width(bin, 1), y_of(1)}};
    for (int i = 0; i + 1 < 6; ++i) canvas.line(outline[i], outline[i + 1], canvas.palette().text, 3.0F);
    for (const float mark : {0.25F, 0.5F, 0.75F}) {
        const float x = middle + half_width(bin, mark);
        canvas.line({x - 12 * canvas.unit(), y_of(mark)}, {x, y_of(mark)}, canvas.palette().text, 2.0F);
    }
}

}  // namespace

void draw_hopper_panel(Canvas& canvas, Box area, const DriverFigures& figures) {
    const Palette& palette = canvas.palette();
    const float unit = canvas.unit();
    const Fonts& fonts = canvas.fonts();
    canvas.panel(area);
    area = area.inset(16 * unit);
    canvas.text(area.take_top(Canvas::line_of(fonts.text), 4 * unit), fonts.text, palette.quiet,
                figures.say(Text::hopper));
    Box words = area;
    Box bin = words.take_left(words.w * 0.31F, 20 * unit);
    const float tallest = bin.w * 1.7F;
    if (bin.h > tallest) bin = {bin.x, bin.y + (bin.h - tallest) / 2, bin.w, tallest};
    draw_bin(canvas, bin, figures.known ? figures.level_share : 0.0);
    if (!figures.known) return;
    const float strong = Canvas::line_of(fonts.strong);
    const float text = Canvas::line_of(fonts.text);
    canvas.text(words.take_top(Canvas::line_of(fonts.figure)), fonts.figure, palette.text,
                figures.level_percent + " %");
    canvas.text(words.take_top(text, 6 * unit), fonts.text, palette.quiet, figures.in_hopper);
    const Box forecast = {words.x, words.y, words.w, std::min(words.h, 2 * strong + unit)};
    words.take_top(canvas.lines(forecast, fonts.strong, palette.text, figures.full_in));
    if (words.h >= text) canvas.text(words.take_top(text), fonts.text, palette.quiet, figures.full_after);
}

}  // namespace podrate::ui
