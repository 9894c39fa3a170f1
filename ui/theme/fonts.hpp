// Fonts at the sizes a view needs.
#pragma once

#include <string>
#include <vector>

struct ImFont;
struct ImFontAtlas;

namespace podrate::ui {

inline constexpr float kLeastPx = 15.0F;  // smaller is not read on a shaking seat
inline constexpr float kLabelPx = 22.0F;  // of the smallest font at one unit

// From small to large; a size is the height of its line in pixels. All are the same font where none is
// installed.
struct Fonts {
    ImFont* small = nullptr;   // axis, lists: for who sits at a desk
    ImFont* bold = nullptr;    // their heads
    ImFont* label = nullptr;   // labels, units, axis
    ImFont* text = nullptr;    // words
    ImFont* strong = nullptr;  // words that matter
    ImFont* figure = nullptr;  // state, clock, second figures
    ImFont* large = nullptr;   // titles
    ImFont* great = nullptr;   // load rate, speed, loss

    // For views that are read at a desk: each a step smaller.
    [[nodiscard]] Fonts at_desk() const;
};

// Where font files are looked for, in order. B612 (made for cockpits, digits of equal width), then DejaVu.
std::vector<std::string> font_candidates_regular();
std::vector<std::string> font_candidates_bold();

// Fills the atlas for a view whose unit (1/800 of its height at 1280 x 800) is `unit_px`. Files that are
// missing are passed over; with none left, Dear ImGui's own font is used.
Fonts load_fonts(ImFontAtlas& atlas, float unit_px, const std::vector<std::string>& regular,
                 const std::vector<std::string>& bold);

}  // namespace podrate::ui
