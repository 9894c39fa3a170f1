// All colours of the program, by day and by night. No other file names a colour.
#pragma once

#include <cstdint>

namespace podrate::ui {

struct Rgb {
    std::uint8_t r = 0;
    std::uint8_t g = 0;
    std::uint8_t b = 0;
};

// Text and marks keep a WCAG 2 contrast of 4.5 or more to `ground` and `panel`; tests/ui/palette_test.cpp
// holds them to it.
struct Palette {
    const char* name;
    Rgb ground;     // behind everything
    Rgb panel;      // behind a group of figures
    Rgb rule;       // thin lines that divide; carries no meaning
    Rgb text;       // figures and words
    Rgb quiet;      // labels, units
    Rgb rate;       // load rate and its band
    Rgb hopper;     // hopper content
    Rgb working;    // crop is coming in
    Rgb moving;     // moving without crop
    Rgb standing;   // standing: costs time
    Rgb warning;    // something to check
    Rgb on_mark;    // text upon rate, hopper, working, moving, standing or warning
    Rgb series[4];  // lines of one chart
};

inline constexpr Palette kDayPalette = {
    "day",
    {0xF7, 0xF7, 0xF5},
    {0xFF, 0xFF, 0xFF},
    {0xC9, 0xC9, 0xC4},
    {0x11, 0x11, 0x11},
    {0x4A, 0x4A, 0x48},
    {0x00, 0x5F, 0x96},
    {0x00, 0x69, 0x4D},
    {0x00, 0x69, 0x4D},
    {0x00, 0x5F, 0x96},
    {0x94, 0x40, 0x00},
    {0x94, 0x20, 0x50},
    {0xFF, 0xFF, 0xFF},
    {{0x00, 0x5F, 0x96}, {0x94, 0x40, 0x00}, {0x00, 0x69, 0x4D}, {0x94, 0x20, 0x50}},
};

inline constexpr Palette kNightPalette = {
    "night",
    {0x0B, 0x0E, 0x11},
    {0x14, 0x18, 0x1C},
    {0x38, 0x3F, 0x46},
    {0xE6, 0xE6, 0xE6},
    {0xA8, 0xAE, 0xB4},
    {0x56, 0xB4, 0xE9},
    {0x2F, 0xB8, 0x8F},
    {0x2F, 0xB8, 0x8F},
    {0x56, 0xB4, 0xE9},
    {0xE6, 0x8A, 0x2E},
    {0xF0, 0xE4, 0x42},
    {0x0B, 0x0E, 0x11},
    {{0x56, 0xB4, 0xE9}, {0xE6, 0x8A, 0x2E}, {0x2F, 0xB8, 0x8F}, {0xF0, 0xE4, 0x42}},
};

// WCAG 2.x contrast ratio, 1 to 21.
double contrast(Rgb a, Rgb b);

}  // namespace podrate::ui
