// What is touched to answer an alarm: how large it is, what it does, and that a record has none.
#include <catch2/catch.hpp>

#include "driver/touch_size.hpp"
#include "ui/live_machine.hpp"
#include "ui/scene_desk.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

struct Run {
    int from = 0;
    int to = 0;  // the last pixel of it
    [[nodiscard]] int length() const { return to - from + 1; }
    [[nodiscard]] float middle() const { return 0.5F * static_cast<float>(from + to); }
};

bool touchable(SceneDesk& desk, int x, int y) {
    ImGui::GetIO().MousePos = {static_cast<float>(x), static_cast<float>(y)};
    desk.frame();
    desk.frame();  // what was below the pointer in the frame before counts as well
    return ImGui::IsAnyItemHovered();
}

// Pixels that can be touched, in runs, along a line.
template <class Touchable>
std::vector<Run> runs(int from, int to, Touchable is) {
    std::vector<Run> found;
    bool inside = false;
    for (int at = from; at < to; ++at) {
        const bool now = is(at);
        if (now && !inside) found.push_back({at, at});
        if (now) found.back().to = at;
        inside = now;
    }
    return found;
}

std::vector<Run> targets_across(SceneDesk& desk, int y) {
    const int width = static_cast<int>(ImGui::GetIO().DisplaySize.x);
    return runs(width / 3, width, [&](int x) { return touchable(desk, x, y); });
}

constexpr int kAboveEdge = 50;  // within the bar at any size

}  // namespace

// The sums stand in driver/touch_size.hpp; the diagonals are what such screens commonly have.
TEST_CASE(
    "A screen's pixels for each millimetre are taken from its diagonal, or told where that can be true") {
    CHECK(assumed_px_per_mm(800, 480) == Approx(932.952 / 177.8).epsilon(1e-5));
    CHECK(assumed_px_per_mm(1024, 600) == Approx(1186.84 / 254.0).epsilon(1e-5));
    CHECK(assumed_px_per_mm(1280, 800) == Approx(1509.44 / 256.54).epsilon(1e-5));
    CHECK(assumed_px_per_mm(1920, 1080) == Approx(2202.91 / 396.24).epsilon(1e-5));
    CHECK(assumed_px_per_mm(600, 1024) == assumed_px_per_mm(1024, 600));
    CHECK(assumed_px_per_mm(1366, 768) == assumed_px_per_mm(1280, 800));
    // 7 inches with more pixels: 152 mm by 91 mm.
    CHECK(px_per_mm({1280, 768, 152, 91}) == Approx(1280.0 / 152.0).epsilon(0.01));
    // Made up, 96 to the inch: no smaller than assumed.
    CHECK(px_per_mm({800, 480, 211, 127}) == assumed_px_per_mm(800, 480));
    CHECK(px_per_mm({800, 480, 0, 0}) == assumed_px_per_mm(800, 480));
    CHECK(px_per_mm({800, 480, 16, 9}) == assumed_px_per_mm(800, 480));     // an aspect, no size
    CHECK(px_per_mm({800, 480, 40, 90}) == assumed_px_per_mm(800, 480));    // one way unlike the other
    CHECK(px_per_mm({800, 480, 900, 540}) == assumed_px_per_mm(800, 480));  // a wall
    CHECK(touch_side_px(5.25) == 79.0F);                                    // 15 x 5.25 = 78.75
}

TEST_CASE("What can be touched is 15 mm wide and high at least, apart, and there only with an alarm") {
    const auto [width, height, diagonal_inch] =
        GENERATE(std::tuple(800, 480, 7.0), std::tuple(1024, 600, 10.0), std::tuple(1280, 800, 10.1),
                 std::tuple(1920, 1080, 15.6), std::tuple(600, 1024, 10.0));
    INFO(width << " x " << height);
    const double px_per_mm = std::hypot(width, height) / (25.4 * diagonal_inch);
    LiveMachine machine;
    SceneDesk desk(machine, static_cast<float>(width), static_cast<float>(height));
    desk.session().skip_cautions();
    machine.run(20.0);
    const int y = height - kAboveEdge;
    CHECK(targets_across(desk, y).empty());
    lose_speed(machine);
    const std::vector<Run> new_alarm = targets_across(desk, y);
    REQUIRE(new_alarm.size() == 2);  // noted, put off
    for (const Run& across : new_alarm) {
        CHECK(across.length() >= kTouchMm * px_per_mm);
        const std::vector<Run> up = runs(height / 2, height, [&](int at) {
            return touchable(desk, static_cast<int>(across.middle()), at);
        });
        REQUIRE(up.size() == 1);
        CHECK(up[0].length() >= kTouchMm * px_per_mm);
    }
    CHECK(new_alarm[1].from - new_alarm[0].to > 4);
}

TEST_CASE("A touch answers the alarm that is shown, and one beside does nothing") {
    LiveMachine machine;
    SceneDesk desk(machine, 1280, 800);
    desk.session().skip_cautions();
    lose_speed(machine);
    const float y = 800.0F - kAboveEdge;
    std::vector<Run> targets = targets_across(desk, static_cast<int>(y));
    REQUIRE(targets.size() == 2);
    desk.click(200, y);
    desk.click(targets[0].middle(), 400);
    CHECK(machine.orders.empty());
    desk.click(targets[0].middle(), y);
    REQUIRE(machine.orders.size() == 1);
    CHECK(machine.orders[0].answer == AlarmAnswer::note);
    CHECK(machine.orders[0].alarm == AlarmId::speed_fault);
    machine.tick();
    targets = targets_across(desk, static_cast<int>(y));
    REQUIRE(targets.size() == 1);
    desk.click(targets[0].middle(), y);
    CHECK(machine.orders.back().answer == AlarmAnswer::put_off);
    machine.tick();
    targets = targets_across(desk, static_cast<int>(y));
    REQUIRE(targets.size() == 1);  // nothing stands: bring back
    desk.click(targets[0].middle(), y);
    CHECK(machine.orders.back().answer == AlarmAnswer::bring_back);
    machine.tick();
    CHECK(machine.shown().alarm.shown);
    CHECK(machine.orders.size() == 3);
}

TEST_CASE("Keys answer as touches do, but not while cautions or help are up") {
    LiveMachine machine;
    SceneDesk desk(machine, 1280, 800);
    machine.hopper_kg = 2100.0;
    machine.run(30.0);
    REQUIRE(machine.shown().alarm.alarm == AlarmId::hopper_full);
    desk.press({Key::a});
    CHECK(machine.orders.empty());
    desk.session().skip_cautions();
    desk.press({Key::f1});
    REQUIRE(desk.session().help_up());
    desk.press({Key::a});  // closes the help
    CHECK(machine.orders.empty());
    for (const Key key : {Key::a, Key::s, Key::b}) {
        desk.press({key});
        machine.tick();
    }
    REQUIRE(machine.orders.size() == 3);
    CHECK(machine.orders[0].answer == AlarmAnswer::note);
    CHECK(machine.orders[1].answer == AlarmAnswer::put_off);
    CHECK(machine.orders[2].answer == AlarmAnswer::bring_back);
    CHECK(machine.orders[1].alarm == AlarmId::hopper_full);
    while (machine.hopper_kg > 0.0) {  // tipped
        machine.hopper_kg -= 100.0;
        machine.run(1.0);
    }
    machine.run(60.0);
    INFO(machine.shown().alarm.what);
    REQUIRE_FALSE(machine.shown().alarm.shown);
    desk.press({Key::a});  // no alarm: nothing to answer
    desk.press({Key::s});
    CHECK(machine.orders.size() == 3);
}

TEST_CASE("The view shows that an alarm was noted, and that it was put off") {
    LiveMachine machine;
    SceneDesk desk(machine, 800, 480);
    desk.session().skip_cautions();
    lose_speed(machine);
    const auto fresh = desk.picture().rgba;
    CHECK(desk.picture().rgba == fresh);
    desk.press({Key::a});
    machine.tick();
    const auto noted = desk.picture().rgba;
    CHECK(noted != fresh);
    desk.press({Key::s});
    machine.tick();
    CHECK(desk.picture().rgba != noted);
}

TEST_CASE("A recorded day's alarms cannot be answered: its keys do nothing and nothing can be touched") {
    SceneDesk desk(800, 480);
    desk.session().skip_cautions();
    Session& session = desk.session();
    const Recording& recording = session.recording();
    TimeUs alarmed_us = 0;
    for (const sim::AlarmEvent& event : recording.machines[0].alarms) {
        if (event.end_us - event.start_us > 20 * kSecondUs) alarmed_us = event.start_us + 10 * kSecondUs;
    }
    REQUIRE(alarmed_us != 0);
    session.playback().seek(alarmed_us);
    const DriverFigures before = session.figures();
    REQUIRE(before.alarm.shown);
    CHECK(before.answers.note.empty());
    CHECK(before.answers.put_off.empty());
    const Image shown = desk.picture();
    for (const Key key : {Key::a, Key::s, Key::b}) desk.press({key});
    session.answer({AlarmAnswer::put_off, before.alarm.alarm});
    CHECK(session.figures().alarm.alarm == before.alarm.alarm);
    CHECK(desk.picture().rgba == shown.rgba);
    CHECK_FALSE(touchable(desk, 700, 410));
}
