#include "model/driver_figures.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "model/words.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr TimeUs kStart = 1751032800 * kSecondUs;
constexpr Speech kSay;

// A recording of one machine in one state, made by hand.
Recording made_of(const Estimate& estimate) {
    Recording recording;
    recording.label = "a day";
    recording.time_zone = "Etc/UTC";
    MachineRecording& machine = recording.machines.emplace_back();
    machine.id = "viner_9";
    machine.parameters.hopper_capacity_kg = Real(2000);
    machine.snapshots.push_back(estimate);
    recording.first_us = recording.last_us = estimate.time_us;
    return recording;
}

Estimate harvesting() {
    Estimate e;
    e.time_us = kStart;
    e.started = true;
    e.state = WorkState::harvesting;
    e.mass_kg = Real(1000);
    e.flow_kgps = Real(1.5);
    e.flow_sd_kgps = Real(0.1);
    e.yield_kgpm2 = Real(0.5);
    e.yield_sd_kgpm2 = Real(0.03);
    e.level_share = Real(0.5);
    e.speed_mps = Real(1);
    e.harvested_kg = Real(12340);
    e.area_m2 = Real(25000);
    e.distance_to_full_m = Real(606);
    e.time_to_full_s = Real(606);
    return e;
}

}  // namespace

TEST_CASE("Figures are in the units people use") {
    const DriverFigures f = driver_figures(made_of(harvesting()), 0, kStart, kSay);
    REQUIRE(f.known);
    CHECK(f.rate == "5.4");                   // 1.5 kg/s
    CHECK(f.rate_interval == "4.8 to 6.0");   // 5.4 +- 1.645 * 0.36
    CHECK(f.yield_here == "5.0");             // 0.5 kg/m2
    CHECK(f.yield_interval == "4.5 to 5.5");  // +- 1.645 * 0.3
    CHECK(f.speed.now == "3.6");
    CHECK(f.level_percent == "50");
    CHECK(f.in_hopper == "1.00 t of 2.0 t");
    CHECK(f.full_in == "full in 10 min");
    CHECK(f.full_after == "610 m of crop");
    CHECK(f.total == "12.3");
    CHECK(f.area_cut == "2.50 ha");
    CHECK(f.state_word == "Harvesting");
    CHECK(f.clock == "14:00:00");
    CHECK(f.no_data.what.empty());
    CHECK_FALSE(f.alarm.shown);
    CHECK(f.caution.empty());
}

TEST_CASE("A standing machine is not said to be on its way to full") {
    Estimate e = harvesting();
    e.state = WorkState::stopped;
    CHECK(driver_figures(made_of(e), 0, kStart, kSay).full_in == "10 min of work to full");
    e.level_share = Real(0.98);
    CHECK(driver_figures(made_of(e), 0, kStart, kSay).full_in == "full");
    e.distance_to_full_m = Real(-1);
    CHECK(driver_figures(made_of(e), 0, kStart, kSay).full_in == "time to full not known");
}

TEST_CASE("The interval never goes below zero") {
    Estimate e = harvesting();
    e.flow_kgps = Real(-0.01);
    e.flow_sd_kgps = Real(0.05);
    const DriverFigures f = driver_figures(made_of(e), 0, kStart, kSay);
    CHECK(f.rate == "0.0");
    CHECK(f.rate_interval == "0.0 to 0.3");
}

TEST_CASE("Before a tip the cautions are shown") {
    Estimate e = harvesting();
    e.level_share = Real(0.9);
    CHECK(driver_figures(made_of(e), 0, kStart, kSay).caution == kSay(Text::tip_caution));
    e.level_share = Real(0.2);
    e.state = WorkState::tipping;
    CHECK(driver_figures(made_of(e), 0, kStart, kSay).caution == kSay(Text::tip_caution));
}

TEST_CASE("An old figure is never shown as a new one") {
    const Recording recording = made_of(harvesting());
    CHECK_FALSE(driver_figures(recording, 0, kStart - kSecondUs, kSay).known);
    CHECK(driver_figures(recording, 0, kStart + 2 * kSecondUs, kSay).known);
    const DriverFigures late = driver_figures(recording, 0, kStart + 4 * kSecondUs, kSay);
    CHECK_FALSE(late.known);
    CHECK(late.rate.empty());
    CHECK(late.state_word == "No data");
    CHECK_FALSE(late.no_data.what.empty());
    CHECK_FALSE(late.loss.known);
    CHECK(late.speed.now.empty());
}

TEST_CASE("On the shipped day the view follows the recording") {
    const Recording& recording = shipped_recording();
    REQUIRE(recording.machines.size() == 3);
    for (std::size_t machine = 0; machine < 3; ++machine) {
        std::size_t loads = 0;
        for (TimeUs t = recording.first_us; t <= recording.last_us; t += 61 * kSecondUs) {
            const DriverFigures f = driver_figures(recording, machine, t, kSay);
            REQUIRE(f.known);
            const Estimate* e = recording.machines[machine].at(t);
            REQUIRE(e != nullptr);
            REQUIRE(e->time_us <= t);
            CHECK(std::stod(f.rate) ==
                  Approx(std::max(0.0, 3.6 * static_cast<double>(e->flow_kgps))).margin(0.051));
            CHECK(f.level_share >= 0.0);
            CHECK(f.level_share <= 1.0);
            CHECK(f.loads.size() >= std::min<std::size_t>(loads, 4));  // loads never vanish from the list
            loads = f.loads.size();
            for (const RatePoint& point : f.recent) {
                CHECK(point.low_tph <= point.rate_tph);
                CHECK(point.high_tph <= f.rate_scale_tph + 1e-9);
                CHECK(point.minutes_ago >= 0.0);
            }
        }
        CHECK(loads == 4);
    }
}
