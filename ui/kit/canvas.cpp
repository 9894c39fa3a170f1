#include "kit/canvas.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::ui {
namespace {

constexpr float kLeastShrink = 0.7F;

}  // namespace

Box Box::take_top(float height, float gap) {
    const Box part = {x, y, w, height};
    y += height + gap;
    h -= height + gap;
    return part;
}

Box Box::take_bottom(float height, float gap) {
    const Box part = {x, y + h - height, w, height};
    h -= height + gap;
    return part;
}

Box Box::take_left(float width, float gap) {
    const Box part = {x, y, width, h};
    x += width + gap;
    w -= width + gap;
    return part;
}

Box Box::take_right(float width, float gap) {
    const Box part = {x + w - width, y, width, h};
    w -= width + gap;
    return part;
}

ImU32 Canvas::packed(Rgb colour, float opacity) {
    const auto alpha = static_cast<ImU32>(std::lround(255.0F * std::clamp(opacity, 0.0F, 1.0F)));
    return (alpha << IM_COL32_A_SHIFT) | (static_cast<ImU32>(colour.b) << IM_COL32_B_SHIFT) |
           (static_cast<ImU32>(colour.g) << IM_COL32_G_SHIFT) |
           (static_cast<ImU32>(colour.r) << IM_COL32_R_SHIFT);
}

void Canvas::fill(const Box& box, Rgb colour, float round_units) {
    list_.AddRectFilled({box.x, box.y}, {box.right(), box.bottom()}, packed(colour), round_units * unit_px_);
}

void Canvas::panel(const Box& box) {
    fill(box, palette_.panel, 8.0F);
    list_.AddRect({box.x, box.y}, {box.right(), box.bottom()}, packed(palette_.rule), 8.0F * unit_px_);
}

float Canvas::width_of(ImFont* font, const std::string& words) {
    return font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.c_str()).x;
}

float Canvas::text(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align) {
    std::string shown = words;
    float natural = width_of(font, shown);
    // Down to seven tenths of its size, then cut: smaller would not be read.
    while (natural * kLeastShrink > box.w && shown.size() > 4) {
        shown.resize(shown.size() - 4);
        while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0x80U) != 0) shown.pop_back();
        shown += "\xE2\x80\xA6";
        natural = width_of(font, shown);
    }
    const float fitted = natural > box.w && natural > 0.0F ? box.w / natural : 1.0F;
    const float size = std::min(font->FontSize * fitted, std::max(box.h, 4.0F) * 1.25F);
    const float width = natural * size / font->FontSize;
    float x = box.x;
    if (align == Align::centre) x += (box.w - width) / 2;
    if (align == Align::right) x += box.w - width;
    const float y = box.y + (box.h - size) / 2;
    list_.AddText(font, size, {std::round(x), std::round(y)}, packed(colour), shown.c_str());
    return width;
}

void Canvas::line(ImVec2 from, ImVec2 to, Rgb colour, float width_units) {
    list_.AddLine(from, to, packed(colour), std::max(1.0F, width_units * unit_px_));
}

float unit_for(float width_px, float height_px) {
    return std::min(width_px / 1280.0F, height_px / 800.0F);
}

}  // namespace podrate::ui
