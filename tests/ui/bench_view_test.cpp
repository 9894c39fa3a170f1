// The bench by mouse and keys, and its pictures, on a screen in memory.
#include "settings/settings.hpp"
#include "ui/bench_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

struct Size {
    float width;
    float height;
};

constexpr Size kSizes[] = {{800, 480}, {1024, 600}, {1280, 800}, {1920, 1080}, {600, 1024}};
constexpr Speech kSpeeches[] = {{Language::english, Units::metric},
                                {Language::english, Units::us},
                                {Language::german, Units::metric},
                                {Language::german, Units::us}};

}  // namespace

TEST_CASE("No word of the bench is cut at any size, in either language and system of units") {
    const Size size = GENERATE(from_range(std::begin(kSizes), std::end(kSizes)));
    const Speech say = GENERATE(from_range(std::begin(kSpeeches), std::end(kSpeeches)));
    const float scale = GENERATE(1.0F, static_cast<float>(kLeastScale));
    // At its least, words of the longest language tell.
    if (scale < 1.0F && (say.language != Language::german || say.units != Units::us)) return;
    INFO(size.width << " x " << size.height << (say.language == Language::german ? ", German" : ", English")
                    << (say.units == Units::us ? ", US" : ", metric") << ", scale " << scale);
    BenchDesk desk(size.width, size.height, say, scale);
    desk.press(Key::m);
    for (std::size_t i = 0; i < kParameterCount; i += 5) {
        desk.bench().choose(i);
        CHECK(desk.cut() == "");
    }
    desk.set("hopper_nearly_full_share", "0.3");
    desk.set("rate_low_share", "1");
    desk.set("wanted_rate_kgps", "4");
    CHECK(desk.cut() == "");
    desk.wait();
    for (int table = 0; table < kBenchTables; ++table) {
        desk.press(Key::t);
        CHECK(desk.cut() == "");
    }
    desk.press(Key::c);
    desk.press(Key::f);
    desk.type("zzz");
    CHECK(desk.cut() == "");
    desk.press(Key::enter);
    CHECK(desk.cut() == "");
    desk.press(Key::escape);
    desk.press(Key::s);
    CHECK(desk.cut() == "");
    desk.press(Key::enter);
    desk.press(Key::enter);
    CHECK(desk.cut() == "");
    desk.type("Wet corner of the long field by the river: full hopper told earlier on the slope");
    CHECK(desk.cut() == "");
    desk.press(Key::enter);
    desk.press(Key::t);
    desk.press(Key::t);
    CHECK(desk.cut() == "");
    CHECK(desk.bench().table() == BenchTable::history);
}
