#include "kit/canvas.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::ui {
namespace {

constexpr float kLeastShrink = 0.7F;
constexpr float kLeastFigureShrink = 0.5F;
constexpr float kLineShare = 1.16F;
constexpr float kNarrower = 0.96F;

// Lines no wider than that, broken between words.
std::vector<std::string> broken(ImFont* font, const std::string& words, float width) {
    std::vector<std::string> rows;
    std::size_t from = 0;
    while (from < words.size()) {
        std::size_t to = words.size();
        while (Canvas::width_of(font, words.substr(from, to - from)) > width) {
            const std::size_t gap = words.rfind(' ', to - 1);
            if (gap == std::string::npos || gap <= from) break;
            to = gap;
        }
        rows.push_back(words.substr(from, to - from));
        from = to + 1;
    }
    return rows;
}

// As many lines, as equally long as they come: no word alone on the last.
std::vector<std::string> evened(ImFont* font, const std::string& words, float width) {
    std::vector<std::string> best = broken(font, words, width);
    for (float narrow = width * kNarrower; narrow > width / 2; narrow *= kNarrower) {
        std::vector<std::string> rows = broken(font, words, narrow);
        if (rows.size() > best.size()) break;
        best = std::move(rows);
    }
    return best;
}

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

float Canvas::line_of(ImFont* font) {
    return std::round(font->FontSize * kLineShare);
}

float Canvas::text(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align) {
    return write(box, font, colour, words, align, kLeastShrink);
}

float Canvas::figure(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align) {
    return write(box, font, colour, words, align, kLeastFigureShrink);
}

// Down to a share of its size but never below what can be read, then cut.
float Canvas::write(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align,
                    float least_shrink) {
    std::string shown = words;
    float natural = width_of(font, shown);
    const float least = std::min(1.0F, std::max(least_shrink, kLeastPx / font->FontSize));
    if (natural * least > box.w || box.h < font->FontSize * least_shrink) cut_.push_back(words);
    while (natural * least > box.w && shown.size() > 4) {
        shown.resize(shown.size() - 4);
        while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0x80U) != 0) shown.pop_back();
        shown += "\xE2\x80\xA6";
        natural = width_of(font, shown);
    }
    const float fitted = natural > box.w && natural > 0.0F ? std::max(least, box.w / natural) : 1.0F;
    const float by_height = std::max(box.h * 1.25F, kLeastPx);
    const float size = std::min(font->FontSize * fitted, by_height);
    const float width = natural * size / font->FontSize;
    float x = box.x;
    if (align == Align::centre) x += (box.w - width) / 2;
    if (align == Align::right) x += box.w - width;
    const float y = box.y + (box.h - size) / 2;
    list_.AddText(font, size, {std::round(x), std::round(y)}, packed(colour), shown.c_str());
    return width;
}

float Canvas::lines_of(ImFont* font, const std::string& words, float width) {
    return static_cast<float>(broken(font, words, width).size());
}

float Canvas::lines(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align) {
    if (words.empty()) return 0.0F;
    const float height = line_of(font);
    std::vector<std::string> rows = broken(font, words, box.w);
    const std::size_t most = static_cast<std::size_t>(std::max(1.0F, std::floor(box.h / height)));
    if (rows.size() <= most) {
        rows = evened(font, words, box.w);
    } else {
        for (std::size_t i = most; i < rows.size(); ++i) rows[most - 1] += ' ' + rows[i];
        rows.resize(most);
    }
    Box rest = box;
    for (const std::string& row : rows) text(rest.take_top(height), font, colour, row, align);
    return rest.y - box.y;
}

void Canvas::line(ImVec2 from, ImVec2 to, Rgb colour, float width_units) {
    list_.AddLine(from, to, packed(colour), std::max(1.0F, width_units * unit_px_));
}

bool upright(float width_px, float height_px) {
    return height_px > width_px;
}

float unit_for(float width_px, float height_px, float scale) {
    const bool stands = upright(width_px, height_px);
    const float full =
        std::min(width_px / (stands ? 820.0F : 1280.0F), height_px / (stands ? 1340.0F : 800.0F));
    return std::max(scale * full, std::min(full, kLeastPx / kLabelPx));
}

}  // namespace podrate::ui
