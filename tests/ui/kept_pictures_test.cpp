// Every view at every size, by day and by night, pixel by pixel as it was last looked at: kept_pictures.txt
// has a mark of each. A changed picture is drawn into the build folder to be looked at; where it is meant,
// the new marks written there take the place of the kept ones.
#include <catch2/catch.hpp>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <thread>

#include "app/picture.hpp"
#include "model/clock_text.hpp"
#include "settings/settings.hpp"
#include "simulator/simulator.hpp"
#include "support/temp_folder.hpp"
#include "theme/fonts.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate::ui;

namespace {

constexpr WindowSize kSizes[] = {{800, 480}, {1024, 600}, {1280, 800}, {1920, 1080}};

// FNV-1a, 64 bits.
std::string mark_of(const Image& image) {
    std::uint64_t hash = 14695981039346656037ULL;
    for (const unsigned char byte : image.rgba) hash = (hash ^ byte) * 1099511628211ULL;
    char text[17];
    std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(hash));
    return text;
}

// Its nearly full hopper told earlier, counted over all machines.
void look_at_alarm(Bench& bench) {
    std::size_t index = 0;
    while (std::string(podrate::kParameterTable[index].name) != "hopper_nearly_full_share") ++index;
    bench.choose(index);
    bench.put_value(0.7);
    bench.press({Key::v});
    do {
        while (bench.busy()) std::this_thread::sleep_for(std::chrono::milliseconds(2));
        bench.refresh();
    } while (bench.busy());
}

void prepare(Session& session, const std::string& view) {
    if (view != "cautions") session.skip_cautions();
    session.choose_machine("viner_2");
    session.playback().seek(
        *parse_clock("16:05", session.recording().time_zone, session.recording().first_us));
    if (view == "help") session.press({Key::f1});
    if (view == "day" || view == "day_all") session.press({Key::f3});
    if (view == "day_all") session.press({Key::c});
    if (view == "map") {
        session.press({Key::f3});
        session.press({Key::tab});
        session.press({Key::f});
    }
    if (view == "tray") {
        session.press({Key::f3});
        session.press({Key::t});
    }
    if (view == "bench" || view == "alarm") session.press({Key::f4});
    if (view == "alarm") look_at_alarm(session.bench());
}

Image picture(const std::string& view, bool night, const WindowSize& size) {
    Settings settings;
    settings.palette = night ? PaletteChoice::night : PaletteChoice::day;
    if (view == "simulator") {
        Simulator simulator(1, {}, {});
        demonstrate(simulator);
        Session session(simulator, settings);
        session.skip_cautions();
        return picture_of(session, size.width_px, size.height_px);
    }
    Session session(shipped_day(), settings);
    prepare(session, view);
    return picture_of(session, size.width_px, size.height_px);
}

std::map<std::string, std::string> kept_marks() {
    std::ifstream file(PODRATE_SOURCE_DIR "/tests/ui/kept_pictures.txt");
    std::map<std::string, std::string> marks;
    for (std::string name, mark; file >> name >> mark;) marks[name] = mark;
    return marks;
}

bool fonts_are_here() {
    for (const std::string& font : {font_candidates_regular().front(), font_candidates_bold().front()}) {
        if (!std::filesystem::exists(font)) return false;
    }
    return true;
}

}  // namespace

TEST_CASE("Every view looks as it did when it was last looked at") {
    if (!fonts_are_here()) {
        WARN("skipped: the fonts B612 are not installed");
        return;
    }
    const std::filesystem::path folder = PODRATE_BUILD_DIR "/tests/ui/pictures";
    std::filesystem::create_directories(folder);
    const std::map<std::string, std::string> kept = kept_marks();
    std::string marks;
    for (const std::string view :
         {"cautions", "driver", "help", "day", "day_all", "map", "tray", "bench", "alarm", "simulator"}) {
        for (const bool night : {false, true}) {
            for (const WindowSize& size : kSizes) {
                const std::string name = view + (night ? "_night_" : "_day_") +
                                         std::to_string(size.width_px) + 'x' + std::to_string(size.height_px);
                const Image image = picture(view, night, size);
                const std::string mark = mark_of(image);
                marks += name + ' ' + mark + '\n';
                const auto was = kept.find(name);
                const std::filesystem::path drawn = folder / (name + ".png");
                INFO(name << " is drawn in " << drawn.string());
                const bool same = was != kept.end() && was->second == mark;
                CHECK(same);
                if (!same) write_png(image, drawn.string());
            }
        }
    }
    podrate::test::write_text(PODRATE_BUILD_DIR "/tests/ui/kept_pictures.txt", marks);
}
