// Drawing in a rectangle: text that fits, panels, lines; all colours from the palette.
#pragma once

#include <imgui.h>

#include <string>
#include <vector>

#include "theme/fonts.hpp"
#include "theme/palette.hpp"

namespace podrate::ui {

struct Box {
    float x = 0.0F;
    float y = 0.0F;
    float w = 0.0F;
    float h = 0.0F;

    [[nodiscard]] float right() const { return x + w; }
    [[nodiscard]] float bottom() const { return y + h; }
    [[nodiscard]] Box inset(float by) const { return {x + by, y + by, w - 2 * by, h - 2 * by}; }
    // The upper or left part of that size; the box keeps the rest.
    Box take_top(float height, float gap = 0.0F);
    Box take_bottom(float height, float gap = 0.0F);
    Box take_left(float width, float gap = 0.0F);
    Box take_right(float width, float gap = 0.0F);
};

enum class Align { left, centre, right };

class Canvas {
  public:
    Canvas(ImDrawList& list, const Palette& palette, const Fonts& fonts, float unit_px)
        : list_(list), palette_(palette), fonts_(fonts), unit_px_(unit_px) {}

    [[nodiscard]] const Palette& palette() const { return palette_; }
    [[nodiscard]] const Fonts& fonts() const { return fonts_; }
    [[nodiscard]] float unit() const { return unit_px_; }
    [[nodiscard]] ImDrawList& list() { return list_; }

    void fill(const Box& box, Rgb colour, float round_units = 0.0F);
    void panel(const Box& box);

    // Writes into the box, vertically centred; words too long are set smaller, then cut. Returns the width
    // written.
    float text(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align = Align::left);

    // The same for a great figure, which is read at half of its size still.
    float figure(const Box& box, ImFont* font, Rgb colour, const std::string& words,
                 Align align = Align::left);

    // Writes from the top of the box, in as many lines as the words need and the box holds. Returns the
    // height taken.
    float lines(const Box& box, ImFont* font, Rgb colour, const std::string& words,
                Align align = Align::left);

    void line(ImVec2 from, ImVec2 to, Rgb colour, float width_units);

    static ImU32 packed(Rgb colour, float opacity = 1.0F);
    static float width_of(ImFont* font, const std::string& words);
    // From one line of that font to the next.
    static float line_of(ImFont* font);
    // How many lines no wider than that the words take.
    static float lines_of(ImFont* font, const std::string& words, float width);

    // Words that found no room, beside or below: none in a good view.
    [[nodiscard]] const std::vector<std::string>& cut() const { return cut_; }
    // Those of a canvas that drew a part of this view.
    void note_cut(const std::string& words) { cut_.push_back(words); }

  private:
    float write(const Box& box, ImFont* font, Rgb colour, const std::string& words, Align align,
                float least_shrink);

    ImDrawList& list_;
    const Palette& palette_;
    const Fonts& fonts_;
    float unit_px_;
    std::vector<std::string> cut_;
};

// A view's unit: 1 at 1280 x 800, or at 820 x 1340 where the screen stands upright; as large as fits
// elsewhere. Less by `scale`, but never so much that type would be too small for it.
float unit_for(float width_px, float height_px, float scale = 1.0F);
bool upright(float width_px, float height_px);

}  // namespace podrate::ui
