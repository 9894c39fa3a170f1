// Pauses in standing crop behind a whole machine whose reel goes on turning.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

constexpr double kSpeed_mps = 0.8;
// Feed at that speed in the plant's crop, of it the haulm, over the drum's dead time and lag.
constexpr double kHeap_kg = 5.0 / 0.96 * 0.48 * 3.3 * kSpeed_mps * (4.0 / 5.0) * (6.0 + 8.0);

void pause(Rig& rig, double for_s) {
    rig.machine.drive(for_s, 0.0);
}

void begin(Rig& rig) {
    rig.machine.stand(5.0);
    rig.machine.drive(400.0, kSpeed_mps);
    REQUIRE(rig.estimator.pause_news() == 0);
}

double surge_after(double extra_kg, std::uint64_t seed) {
    Rig rig(seed);
    begin(rig);
    pause(rig, 60.0);
    for (int i = 0; i < 20; ++i) {
        rig.machine.put_in(extra_kg / 20.0);
        rig.machine.drive(1.0, kSpeed_mps);
    }
    rig.machine.drive(30.0, kSpeed_mps);
    REQUIRE(rig.estimator.last_pause().surge_known);
    return static_cast<double>(rig.estimator.last_pause().surge_kg);
}

}  // namespace

TEST_CASE("A minute's pause in crop is found with its heap") {
    Rig rig(51);
    begin(rig);
    rig.estimator.feed(position_sample(rig.machine.now_us(), 525001234, -12505678));
    const TimeUs from_us = rig.machine.now_us();
    pause(rig, 60.0);
    CHECK(rig.read().state == WorkState::paused_in_crop);
    CHECK(rig.estimator.pause_news() == 0);
    rig.machine.drive(5.0, kSpeed_mps);
    REQUIRE(rig.estimator.pause_news() == 1);
    const Pause& found = rig.estimator.last_pause();
    CHECK(std::abs(static_cast<double>(found.start_us - from_us)) < 1e6);
    CHECK(static_cast<double>(found.end_us - found.start_us) / 1e6 == Approx(60.0).margin(1.0));
    CHECK(found.lat_e7 == 525001234);
    CHECK(found.lon_e7 == -12505678);
    CHECK(found.place_known);
    CHECK(static_cast<double>(found.heap_kg) == Approx(kHeap_kg).epsilon(0.1));
    rig.machine.drive(60.0, kSpeed_mps);
    CHECK(rig.estimator.pause_news() == 2);
    CHECK(found.surge_known);
}

TEST_CASE("A stop of five seconds leaves no pause") {
    Rig rig(52);
    begin(rig);
    pause(rig, 5.0);
    rig.machine.drive(100.0, kSpeed_mps);
    CHECK(rig.estimator.pause_news() == 0);
    CHECK(rig.estimator.last_pause().number == 0);
}

TEST_CASE("The heap is what the drum held, however gently the machine came to a stand") {
    Rig rig(53);
    begin(rig);
    // Down to nothing in four seconds: next to nothing is cut meanwhile, but the drum is full.
    for (int i = 0; i < 40; ++i) rig.machine.drive(0.1, kSpeed_mps * (1.0 - i / 40.0));
    pause(rig, 60.0);
    rig.machine.drive(5.0, kSpeed_mps);
    REQUIRE(rig.estimator.last_pause().number == 1);
    CHECK(static_cast<double>(rig.estimator.last_pause().heap_kg) == Approx(kHeap_kg).epsilon(0.25));
}

TEST_CASE("Peas that come extra after a pause are its surge") {
    double more_kg = 0.0;
    for (std::uint64_t seed = 54; seed < 58; ++seed)
        more_kg += surge_after(30.0, seed) - surge_after(0.0, seed);
    CHECK(more_kg / 4.0 == Approx(30.0).margin(10.0));
}

TEST_CASE("Where nothing comes extra after a pause there is no surge") {
    double surge_kg = 0.0;
    for (std::uint64_t seed = 54; seed < 58; ++seed) surge_kg += surge_after(0.0, seed) / 4.0;
    CHECK(surge_kg == Approx(0.0).margin(4.0));
}
