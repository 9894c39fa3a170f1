#include "loading/day_loader.hpp"

#include <catch2/catch.hpp>
#include <chrono>

#include "support/temp_folder.hpp"
#include "ui/scene_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

const char* const kShipped = PODRATE_SOURCE_DIR "/demo_logs/harrowmere";

void wait_for(const DayLoader& loader) {
    while (!loader.done()) std::this_thread::sleep_for(std::chrono::milliseconds(1));
}

void wait_for(Session& session) {
    while (session.opening() != nullptr) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
        session.refresh();
    }
}

}  // namespace

TEST_CASE("A day is opened beside the window and tells how far it is") {
    std::atomic<int> woken{0};
    DayLoader loader(kShipped, [&] { ++woken; });
    double last = 0.0;
    while (!loader.done()) {
        const double share = loader.share();
        CHECK(share >= last);
        last = share;
    }
    const auto day = loader.take();
    REQUIRE(day);
    CHECK(loader.why().empty());
    CHECK(loader.share() == 1.0);
    CHECK(woken > 5);
    CHECK(day->recording.first_us == shipped_recording().first_us);
    CHECK(day->series.last_ms == shipped_series().last_ms);
    CHECK(day->map.has_value());
}

TEST_CASE("What can't be opened says why, and what is called off says nothing") {
    const test::TempFolder folder;
    DayLoader none(folder.path(), nullptr);
    wait_for(none);
    CHECK_FALSE(none.take());
    CHECK(none.why().find("holds no day.toml") != std::string::npos);
    DayLoader cancelled(kShipped, nullptr);
    cancelled.cancel();
    wait_for(cancelled);
    CHECK_FALSE(cancelled.take());
    CHECK(cancelled.why().empty());
}

TEST_CASE("A window that opens nothing goes on with the day it has") {
    const test::TempFolder folder;
    SceneDesk desk;
    Session& session = desk.session();
    session.skip_cautions();
    session.press({Key::f3});
    session.open(folder.path());
    desk.frame();
    wait_for(session);
    CHECK(session.refusal().find("holds no day.toml") != std::string::npos);
    desk.frame();
    desk.press({Key::enter});
    CHECK(session.refusal().empty());
    CHECK(session.view() == View::day);
    session.open(kShipped);
    desk.press({Key::escape});
    wait_for(session);
    CHECK(session.has_day());
    CHECK(session.refusal().empty());
    CHECK_FALSE(session.quit());
}

TEST_CASE("A window without a day draws its cautions, then the loading, then the day") {
    Session session{Settings{}};
    CHECK_FALSE(session.has_day());
    session.open(kShipped);
    CHECK(session.title() == "Podrate: opening harrowmere");
    wait_for(session);
    REQUIRE(session.has_day());
    CHECK(session.title() == "Podrate: viner_1 15:00:00, cautions");
    CHECK(session.settings().last_day == kShipped);
}
