#include "app/picture.hpp"

#include <imgui.h>

#include <catch2/catch.hpp>
#include <set>

#include "model/clock_text.hpp"
#include "theme/fonts.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate::ui;

namespace {

Image picture_at(const char* clock, bool night, int width, int height) {
    Session session(shipped_day());
    session.skip_cautions();
    session.set_night(night);
    session.playback().seek(*parse_clock(clock, session.recording().time_zone, session.recording().first_us));
    return picture_of(session, width, height);
}

std::set<std::uint32_t> colours_of(const Image& image) {
    std::set<std::uint32_t> colours;
    for (std::size_t i = 0; i < image.rgba.size(); i += 4) {
        colours.insert((static_cast<std::uint32_t>(image.rgba[i]) << 16) |
                       (static_cast<std::uint32_t>(image.rgba[i + 1]) << 8) | image.rgba[i + 2]);
    }
    return colours;
}

bool holds(const std::set<std::uint32_t>& colours, Rgb c) {
    return colours.count((static_cast<std::uint32_t>(c.r) << 16) | (static_cast<std::uint32_t>(c.g) << 8) |
                         c.b) == 1;
}

}  // namespace

TEST_CASE("The same moment gives the same picture, pixel by pixel") {
    CHECK(picture_at("16:05", false, 800, 480).rgba == picture_at("16:05", false, 800, 480).rgba);
}

TEST_CASE("Day, night and another moment give other pictures") {
    const Image day = picture_at("16:05", false, 800, 480);
    CHECK(day.rgba != picture_at("16:05", true, 800, 480).rgba);
    CHECK(day.rgba != picture_at("16:06", false, 800, 480).rgba);
}

TEST_CASE("A view has the colours of its palette and of no other") {
    const auto day = colours_of(picture_at("16:05", false, 800, 480));
    const auto night = colours_of(picture_at("16:05", true, 800, 480));
    for (const Rgb colour : {kDayPalette.ground, kDayPalette.text, kDayPalette.hopper})
        CHECK(holds(day, colour));
    for (const Rgb colour : {kNightPalette.ground, kNightPalette.text, kNightPalette.hopper})
        CHECK(holds(night, colour));
    CHECK_FALSE(holds(night, kDayPalette.ground));
    CHECK_FALSE(holds(day, kNightPalette.ground));
}

TEST_CASE("Missing fonts are passed over, down to the built-in one") {
    ImFontAtlas atlas;
    const Fonts none = load_fonts(atlas, 1.0F, {"/nowhere/a.ttf"}, {"/nowhere/b.ttf"});
    REQUIRE(none.great != nullptr);
    CHECK(atlas.Build());
    CHECK(none.great->FontSize > none.text->FontSize);
    CHECK(none.great->FindGlyphNoFallback('5') != nullptr);
}

TEST_CASE("Digits of the large figures are equally wide") {
    ImFontAtlas atlas;
    const Fonts fonts = load_fonts(atlas, 1.0F, font_candidates_regular(), font_candidates_bold());
    REQUIRE(atlas.Build());
    for (ImFont* font : {fonts.great, fonts.large, fonts.figure, fonts.text}) {
        for (char digit = '1'; digit <= '9'; ++digit)
            CHECK(font->GetCharAdvance(digit) == font->GetCharAdvance('0'));
    }
}
