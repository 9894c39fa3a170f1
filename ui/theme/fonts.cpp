#include "theme/fonts.hpp"

#include <imgui.h>

#include <cmath>
#include <filesystem>

namespace podrate::ui {
namespace {

// Sizes at one unit.
constexpr float kSmallPx = 17.0F;
constexpr float kBoldPx = 18.0F;
constexpr float kTextPx = 27.0F;
constexpr float kStrongPx = 34.0F;
constexpr float kFigurePx = 52.0F;
constexpr float kLargePx = 64.0F;
constexpr float kGreatPx = 166.0F;

// Latin, Latin-1 and the few signs the views use; the largest only has what a figure needs.
constexpr ImWchar kTextGlyphs[] = {0x20,   0x7E,   0xA0,   0xFF,   0x2013, 0x2014, 0x2022, 0x2022, 0x2026,
                                   0x2026, 0x2192, 0x2192, 0x2212, 0x2212, 0x2264, 0x2265, 0};
// A figure may be a range in words, "4 to 15 %".
constexpr ImWchar kFigureGlyphs[] = {0x20, 0x7E, 0x2013, 0x2014, 0x2264, 0x2265, 0};

const std::string* first_present(const std::vector<std::string>& files) {
    for (const std::string& file : files) {
        std::error_code ignored;
        if (std::filesystem::is_regular_file(file, ignored)) return &file;
    }
    return nullptr;
}

ImFont* add(ImFontAtlas& atlas, const std::string* file, float size_px, const ImWchar* glyphs) {
    const float size = std::round(size_px < kLeastPx ? kLeastPx : size_px);
    if (file != nullptr) return atlas.AddFontFromFileTTF(file->c_str(), size, nullptr, glyphs);
    ImFontConfig config;
    config.SizePixels = size;
    return atlas.AddFontDefault(&config);
}

}  // namespace

std::vector<std::string> font_candidates_regular() {
    return {"/usr/share/fonts/opentype/b612/B612-Regular.otf",
            "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"};
}

std::vector<std::string> font_candidates_bold() {
    return {"/usr/share/fonts/opentype/b612/B612-Bold.otf",
            "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"};
}

Fonts Fonts::at_desk() const {
    Fonts desk = *this;
    desk.label = small;
    desk.text = small;
    desk.strong = bold;
    desk.figure = strong;
    desk.large = strong;
    return desk;
}

Fonts load_fonts(ImFontAtlas& atlas, float unit_px, const std::vector<std::string>& regular,
                 const std::vector<std::string>& bold) {
    const std::string* regular_file = first_present(regular);
    const std::string* bold_file = first_present(bold);
    if (bold_file == nullptr) bold_file = regular_file;
    if (regular_file == nullptr) regular_file = bold_file;
    atlas.Clear();
    Fonts fonts;
    fonts.small = add(atlas, regular_file, kSmallPx * unit_px, kTextGlyphs);
    fonts.bold = add(atlas, bold_file, kBoldPx * unit_px, kTextGlyphs);
    fonts.text = add(atlas, regular_file, kTextPx * unit_px, kTextGlyphs);
    fonts.label = add(atlas, regular_file, kLabelPx * unit_px, kTextGlyphs);
    fonts.strong = add(atlas, bold_file, kStrongPx * unit_px, kTextGlyphs);
    fonts.figure = add(atlas, bold_file, kFigurePx * unit_px, kTextGlyphs);
    fonts.large = add(atlas, bold_file, kLargePx * unit_px, kTextGlyphs);
    fonts.great = add(atlas, bold_file, kGreatPx * unit_px, kFigureGlyphs);
    return fonts;
}

}  // namespace podrate::ui
