// The colours of a map: cividis, dark to bright, alike to all eyes (J. R. Nunez, C. R. Anderton & R. S.
// Renslow, PLoS ONE 13(7): e0199239, 2018; its seventeen stops as R's viridisLite 0.4 has them).
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>

namespace podrate::sim {

using Rgb = std::array<std::uint8_t, 3>;

inline constexpr std::array<Rgb, 17> kCividis = {{{0x00, 0x20, 0x4D},
                                                  {0x00, 0x2C, 0x69},
                                                  {0x05, 0x36, 0x6E},
                                                  {0x2D, 0x42, 0x6C},
                                                  {0x41, 0x4D, 0x6B},
                                                  {0x52, 0x59, 0x6C},
                                                  {0x61, 0x64, 0x6F},
                                                  {0x6F, 0x70, 0x73},
                                                  {0x7C, 0x7B, 0x78},
                                                  {0x8B, 0x87, 0x79},
                                                  {0x9B, 0x94, 0x77},
                                                  {0xAC, 0xA1, 0x74},
                                                  {0xBC, 0xAF, 0x6F},
                                                  {0xCE, 0xBC, 0x68},
                                                  {0xE0, 0xCB, 0x5E},
                                                  {0xF2, 0xDA, 0x50},
                                                  {0xFF, 0xEA, 0x46}}};

// 0 dark to 1 bright; beyond, the last ones.
inline Rgb cividis(double share) {
    const double place = std::clamp(share, 0.0, 1.0) * static_cast<double>(kCividis.size() - 1);
    const auto at = std::min(static_cast<std::size_t>(place), kCividis.size() - 2);
    const double along = place - static_cast<double>(at);
    Rgb colour{};
    for (std::size_t i = 0; i < colour.size(); ++i)
        colour[i] = static_cast<std::uint8_t>(kCividis[at][i] +
                                              along * (kCividis[at + 1][i] - kCividis[at][i]) + 0.5);
    return colour;
}

}  // namespace podrate::sim
