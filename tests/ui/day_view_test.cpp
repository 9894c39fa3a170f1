// The day's view by mouse and keys, on a screen in memory.
#include "day/day_view.hpp"

#include <fstream>

#include "app/save_seen.hpp"
#include "support/temp_folder.hpp"
#include "ui/scene_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

// At 1280 x 800 the ledger's first row lies about there.
constexpr float kLedgerX = 1000.0F;
constexpr float kRowY = 482.0F;
constexpr float kFootY = 775.0F;

void open_day_view(SceneDesk& desk) {
    desk.session().skip_cautions();
    desk.press({Key::f3});
}

}  // namespace

TEST_CASE("The views show one moment and one machine") {
    SceneDesk desk;
    Session& session = desk.session();
    session.skip_cautions();
    desk.press({Key::tab});
    desk.press({Key::right, true});
    desk.press({Key::f3});
    CHECK(session.view() == View::day);
    CHECK(session.desk().machine() == 1);
    CHECK(session.desk().cursor_us() == session.playback().now_us() / 1000 * 1000);
    CHECK(session.title() == "Podrate: Harrowmere gang, Friday afternoon");
    desk.press({Key::right, true});
    desk.press({Key::m});
    desk.press({Key::f4});
    CHECK(session.view() == View::bench);
    CHECK(session.bench().machine() == 2);
    CHECK(session.title() == "Podrate: Harrowmere gang, Friday afternoon, bench");
    desk.press({Key::f2});
    CHECK(session.machine() == 2);
    CHECK(session.playback().now_us() > session.recording().first_us + 300 * kSecondUs);
}

TEST_CASE("A click on a row goes to its time, the wheel scrolls, a click on a kind hides it") {
    SceneDesk desk;
    open_day_view(desk);
    DayDesk& day = desk.session().desk();
    const std::size_t first = day.ledger().shown()[day.ledger().top(10)];
    desk.click(kLedgerX, kRowY);
    REQUIRE(day.ledger().chosen() == first);
    CHECK(day.cursor_us() == day.rows()[first].from_us / 1000 * 1000);
    const std::size_t top = day.ledger().top(10);
    desk.wheel(kLedgerX, 600.0F, -1.0F);
    CHECK(day.ledger().top(10) == top + 3);
    desk.click(900.0F, 450.0F);
    CHECK_FALSE(day.ledger().seen(LedgerKind::alarm));
    CHECK(day.window().shown() == day.window().whole());
}

TEST_CASE("A click on the map goes to the time at which the machine was there") {
    SceneDesk desk;
    open_day_view(desk);
    DayDesk& day = desk.session().desk();
    const auto before = day.cursor_us();
    desk.click(960.0F, 160.0F);
    CHECK(day.pane() == DayPane::map);
    REQUIRE(day.cursor_us().has_value());
    CHECK(day.cursor_us() != before);
    const auto place = day.day().map->place_at(day.machine(), *day.cursor_us());
    REQUIRE(place.has_value());
}

TEST_CASE("Buttons below do what their keys do") {
    SceneDesk desk;
    open_day_view(desk);
    desk.click(300.0F, kFootY);
    CHECK(desk.session().desk().machine() == 1);
    desk.click(400.0F, kFootY);
    CHECK(desk.session().desk().together());
    desk.click(80.0F, kFootY);
    CHECK(desk.session().view() == View::driver);
}

TEST_CASE("What is seen is saved as a picture and as a table") {
    const test::TempFolder folder;
    SceneDesk desk;
    open_day_view(desk);
    DayDesk& day = desk.session().desk();
    const auto draw = [&] { return desk.picture(); };
    save_seen(day, folder.path(), draw);
    CHECK(day.note().empty());
    day.press({Key::p});
    save_seen(day, folder.path(), draw);
    CHECK(day.note().find(".png") != std::string::npos);
    day.press({Key::x});
    save_seen(day, folder.path(), draw);
    CHECK(day.note().find(".csv") != std::string::npos);
    std::size_t files = 0;
    for (const auto& file : std::filesystem::directory_iterator(folder.path())) {
        ++files;
        CHECK(file.file_size() > 10000);
    }
    CHECK(files == 2);
    day.press({Key::x});
    save_seen(day, folder.path() / "none", draw);
    CHECK(day.note().find("Not saved") == 0);
}

TEST_CASE("The same day gives the same picture of it, by day and by night") {
    const auto picture = [](bool night) {
        SceneDesk desk(800, 480);
        open_day_view(desk);
        desk.session().set_night(night);
        return desk.picture().rgba;
    };
    CHECK(picture(false) == picture(false));
    CHECK(picture(false) != picture(true));
}
