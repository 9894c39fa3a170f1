#include "theme/palette.hpp"

#include <catch2/catch.hpp>

using namespace podrate::ui;

// WCAG 2.x: the two published contrast values that a check of the formula needs.
TEST_CASE("Contrast agrees with WCAG's own examples") {
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21.0));
    CHECK(contrast({0x77, 0x77, 0x77}, {255, 255, 255}) == Approx(4.48).margin(0.005));
    CHECK(contrast({255, 255, 255}, {0x77, 0x77, 0x77}) == Approx(4.48).margin(0.005));
}

// WCAG 2.x, success criterion 1.4.3: 4.5 for text. Marks are held to the same.
TEST_CASE("Text and marks stand out from ground and panel by day and by night") {
    const Palette& p = GENERATE(kDayPalette, kNightPalette);
    INFO(p.name);
    const Rgb upon = GENERATE_COPY(p.ground, p.panel);
    for (const Rgb colour : {p.text, p.quiet, p.rate, p.hopper, p.working, p.moving, p.standing, p.warning}) {
        INFO(static_cast<int>(colour.r)
             << ' ' << static_cast<int>(colour.g) << ' ' << static_cast<int>(colour.b));
        CHECK(contrast(colour, upon) >= 4.5);
    }
    for (const Rgb line : p.series) CHECK(contrast(line, upon) >= 4.5);
    for (const Rgb mark : {p.working, p.moving, p.standing, p.warning})
        CHECK(contrast(p.on_mark, mark) >= 4.5);
}
