// Draws Dear ImGui's draw data into memory, without any display or graphics driver.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "theme/palette.hpp"

struct ImDrawData;
struct ImFontAtlas;

namespace podrate::ui {

struct Image {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgba;  // rows from the top, 4 bytes a pixel
};

// The same input gives the same pixels on every compiler: edges in double, no contraction. The only texture
// is the font atlas.
Image rasterise(const ImDrawData& data, ImFontAtlas& atlas, int width, int height, Rgb background);

// Throws sim::RefusedInput where the file can't be written whole.
void write_png(const Image& image, const std::string& path);

}  // namespace podrate::ui
