// The table of words: filled in right, set in type, and spoken throughout. That it is whole in both
// languages with the same places is checked where it is compiled (ui/text/text.cpp).
#include "text/text.hpp"

#include <imgui.h>

#include <catch2/catch.hpp>

#include "model/driver_figures.hpp"
#include "theme/fonts.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr Speech kEnglish;
constexpr Speech kGerman = {Language::german, Units::metric};

}  // namespace

TEST_CASE("Words are filled in where the language has them") {
    CHECK(kEnglish(Text::range, {"4.9", "5.9"}) == "4.9 to 5.9");
    CHECK(kGerman(Text::range, {"4,9", "5,9"}) == "4,9–5,9");
    CHECK(kGerman(Text::minutes_ago, {"15"}) == "vor 15 min");
    CHECK(kEnglish(Text::hopper) == "Hopper");
    CHECK(kEnglish(Text::full_in, {"{1}"}) == "full in {1} min");  // what is filled in is not filled again
    CHECK(kEnglish(Text::part_of, {"1"}) == "1 of {2}");           // a missing part is seen
}

TEST_CASE("Numbers have the language's decimal sign") {
    CHECK(kEnglish.number(1234.56, 1) == "1234.6");
    CHECK(kGerman.number(1234.56, 1) == "1234,6");
    CHECK(kGerman.number(-0.04, 1) == "0,0");
    CHECK(kGerman.number(7.0, 0) == "7");
    CHECK(kGerman.percent(0.153) == "15 %");
}

TEST_CASE("Every sign of every text is in the type") {
    ImFontAtlas atlas;
    const Fonts fonts = load_fonts(atlas, 1.0F, font_candidates_regular(), font_candidates_bold());
    REQUIRE(atlas.Build());
    for (const Language language : {Language::english, Language::german}) {
        for (int i = 0; i < kTexts; ++i) {
            const std::string words = text_of(static_cast<Text>(i), language);
            ImVector<ImWchar> signs;
            ImFontGlyphRangesBuilder used;
            used.AddText(words.c_str());
            used.BuildRanges(&signs);
            INFO(words);
            for (int at = 0; signs[at] != 0; at += 2) {
                for (unsigned sign = signs[at]; sign <= signs[at + 1]; ++sign) {
                    for (const ImFont* font :
                         {fonts.label, fonts.text, fonts.strong, fonts.figure, fonts.large})
                        CHECK(font->FindGlyphNoFallback(static_cast<ImWchar>(sign)) != nullptr);
                }
            }
        }
    }
    CHECK(fonts.great->FindGlyphNoFallback(',') != nullptr);
    CHECK(fonts.great->FindGlyphNoFallback(0x3B1) == nullptr);  // the check sees what is missing: no alpha
}

TEST_CASE("A German view has no decimal point and none of the English words") {
    const Recording& recording = shipped_recording();
    for (TimeUs t = recording.first_us; t <= recording.last_us; t += 301 * kSecondUs) {
        const DriverFigures f = driver_figures(recording, 1, t, kGerman);
        const std::string all = f.state_word + '|' + f.rate + '|' + f.rate_interval + '|' + f.in_hopper +
                                '|' + f.full_in + '|' + f.full_after + '|' + f.speed.now + '|' +
                                f.speed.right + '|' + f.speed.right_interval + '|' + f.speed.reason + '|' +
                                f.speed.why + '|' + f.speed.faster.ground + '|' + f.loss.figure + '|' +
                                f.loss.sure + '|' + f.loss.source + '|' + f.loss.apart + '|' + f.loss.ground +
                                '|' + f.yield_here + '|' + f.yield_interval + '|' + f.area_cut + '|' +
                                f.total + '|' + f.total_since + '|' + f.total_doubt;
        INFO(all);
        for (std::size_t at = all.find('.'); at != std::string::npos; at = all.find('.', at + 1))
            CHECK_FALSE(std::isdigit(static_cast<unsigned char>(all[at + 1])));
        for (const char* english : {" to ", " of ", "the", "Since", "not", "lost", "faster", "limit"})
            CHECK(all.find(english) == std::string::npos);
    }
}
