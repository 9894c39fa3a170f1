#include "podrate/work/pause_watch.hpp"

#include <catch2/catch.hpp>

using namespace podrate;

namespace {

// A machine that cuts a kg/s, told five times a second.
class Day {
  public:
    // Returns how much news there was.
    int go(WorkState state, double for_s, double comes_kgps = 1.0, double expected_kgps = 1.0) {
        int news = 0;
        for (int i = 0; i < static_cast<int>(for_s * 5.0 + 0.5); ++i) {
            scene.time_us += kSecondUs / 5;
            scene.state = state;
            scene.came_kg += static_cast<Real>(0.2 * comes_kgps);
            scene.expected_kg += static_cast<Real>(0.2 * expected_kgps);
            if (watch.watch(scene)) ++news;
        }
        return news;
    }
    PauseWatch watch;
    PauseWatch::Scene scene;
};

Day harvesting_day() {
    Day day;
    day.scene.time_us = 1751032800 * kSecondUs;
    day.scene.haulm_held_kg = Real(74);
    day.go(WorkState::harvesting, 100.0);
    return day;
}

}  // namespace

TEST_CASE("A pause of a minute in crop is found, with its place and its heap") {
    Day day = harvesting_day();
    day.scene.lat_e7 = 525000000;
    day.scene.lon_e7 = 12500000;
    day.scene.place_known = true;
    const TimeUs from_us = day.scene.time_us;
    CHECK(day.watch.last().number == 0);
    day.scene.haulm_held_kg = Real(0);  // the drum empties while it stands
    CHECK(day.go(WorkState::paused_in_crop, 60.0, 0.2, 0.0) == 0);
    day.scene.lat_e7 += 100;
    CHECK(day.go(WorkState::harvesting, 1.0) == 1);
    const Pause& pause = day.watch.last();
    CHECK(pause.number == 1);
    CHECK(seconds(pause.start_us - from_us) == Approx(0.0).margin(0.3));
    CHECK(seconds(pause.end_us - pause.start_us) == Approx(60.0).margin(0.3));
    CHECK(pause.heap_kg == Real(74));
    CHECK(pause.lat_e7 == 525000000);
    CHECK(pause.lon_e7 == 12500000);
    CHECK(pause.place_known);
    CHECK_FALSE(pause.surge_known);
}

TEST_CASE("A short stop leaves no pause") {
    Day day = harvesting_day();
    CHECK(day.go(WorkState::paused_in_crop, 5.0) == 0);
    CHECK(day.go(WorkState::harvesting, 100.0) == 0);
    CHECK(day.go(WorkState::paused_in_crop, 14.6) == 0);
    CHECK(day.go(WorkState::harvesting, 100.0) == 0);
    CHECK(day.watch.last().number == 0);
    CHECK(day.go(WorkState::paused_in_crop, 15.4) == 0);
    CHECK(day.go(WorkState::harvesting, 1.0) == 1);
    CHECK(day.watch.last().number == 1);
}

TEST_CASE("What surges in after a pause is what came beyond what was to be expected") {
    for (const double more_kgps : {-0.5, 0.0, 1.5}) {
        INFO("more by " << more_kgps << " kg/s");
        Day day = harvesting_day();
        day.go(WorkState::paused_in_crop, 60.0, 0.1, 0.0);  // what trickles in the pause is none of it
        CHECK(day.go(WorkState::harvesting, 20.0, 1.0 + more_kgps) == 1);
        CHECK_FALSE(day.watch.last().surge_known);
        CHECK(day.go(WorkState::harvesting, 25.0, 1.0, 1.0) == 1);
        REQUIRE(day.watch.last().surge_known);
        CHECK(static_cast<double>(day.watch.last().surge_kg) == Approx(20.0 * more_kgps).margin(0.5));
        CHECK(day.watch.last().number == 1);
        // What comes later is no part of it.
        CHECK(day.go(WorkState::harvesting, 100.0, 3.0) == 0);
        CHECK(static_cast<double>(day.watch.last().surge_kg) == Approx(20.0 * more_kgps).margin(0.5));
    }
}

TEST_CASE("A surge cut short is not told") {
    for (const WorkState state : {WorkState::turning, WorkState::paused_in_crop, WorkState::stopped}) {
        Day day = harvesting_day();
        day.go(WorkState::paused_in_crop, 60.0);
        day.go(WorkState::harvesting, 20.0, 5.0);
        CHECK(day.go(state, 5.0) == 0);
        day.go(WorkState::harvesting, 100.0);
        CHECK_FALSE(day.watch.last().surge_known);
    }
}

TEST_CASE("A pause that turns into something else leaves its heap and no surge") {
    for (const WorkState state : {WorkState::waiting, WorkState::stopped, WorkState::turning}) {
        Day day = harvesting_day();
        day.go(WorkState::paused_in_crop, 60.0);
        CHECK(day.go(state, 10.0) == 1);
        CHECK(day.watch.last().number == 1);
        CHECK(day.watch.last().heap_kg == Real(74));
        CHECK(day.go(WorkState::harvesting, 100.0, 5.0) == 0);
        CHECK_FALSE(day.watch.last().surge_known);
    }
}

TEST_CASE("Pauses are counted on, each with its own heap") {
    Day day = harvesting_day();
    for (std::uint32_t number = 1; number <= 4; ++number) {
        day.scene.haulm_held_kg = static_cast<Real>(50 + number);
        day.go(WorkState::harvesting, 60.0);
        day.go(WorkState::paused_in_crop, 20.0);
        day.go(WorkState::harvesting, 10.0);
        CHECK(day.watch.last().number == number);
        CHECK(day.watch.last().heap_kg == Approx(50 + number).epsilon(0.001));
    }
}

TEST_CASE("Standing where nothing was cut is no pause") {
    Day day;
    day.scene.time_us = 1751032800 * kSecondUs;
    day.go(WorkState::stopped, 600.0);
    day.go(WorkState::travelling, 60.0);
    day.go(WorkState::waiting, 600.0);
    CHECK(day.watch.last().number == 0);
}
