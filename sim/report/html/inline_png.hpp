// A small picture inside a page.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace podrate::sim {

// "data:image/png;base64,..." of width x height pixels of red, green, blue and opacity, from the top row
// down.
std::string inline_png(const std::vector<std::uint8_t>& rgba, int width, int height);

// RFC 4648.
std::string base64(const std::string& bytes);

}  // namespace podrate::sim
