// Small tables of words, painted.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "kit/canvas.hpp"

namespace podrate::ui {

inline constexpr float kTablePadUnits = 8.0F;
inline constexpr float kTableRowShare = 1.2F;     // height of a row, in lines of text
inline constexpr float kMostTableUnits = 620.0F;  // wider, eyes lose the row

// A row of words: the first takes what room the others leave.
template <std::size_t columns>
void draw_cells(Canvas& canvas, Box row, const std::array<std::string, columns>& words,
                const std::array<float, columns>& widths, Rgb colour) {
    ImFont* font = canvas.fonts().label;
    const float gap = kTablePadUnits * canvas.unit();
    for (std::size_t i = columns - 1; i > 0; --i)
        canvas.text(row.take_right(widths[i], gap), font, colour, words[i], Align::right);
    canvas.text(row, font, colour, words[0]);
}

template <std::size_t columns>
std::array<float, columns> widths_of(const std::vector<std::array<std::string, columns>>& rows,
                                     ImFont* font) {
    std::array<float, columns> widths{};
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < columns; ++i)
            widths[i] = std::max(widths[i], Canvas::width_of(font, row[i]) + 1.0F);
    }
    return widths;
}

// The first row is the head.
template <std::size_t columns>
void draw_table(Canvas& canvas, Box area, const std::vector<std::array<std::string, columns>>& rows) {
    const float line = Canvas::line_of(canvas.fonts().label);
    const float height = std::min(kTableRowShare * line, area.h / static_cast<float>(rows.size()));
    const auto widths = widths_of(rows, canvas.fonts().label);
    area.w = std::min(area.w, kMostTableUnits * canvas.unit());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Palette& palette = canvas.palette();
        draw_cells(canvas, area.take_top(height), rows[i], widths, i == 0 ? palette.quiet : palette.text);
    }
}

}  // namespace podrate::ui
