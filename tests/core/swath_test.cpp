#include "podrate/work/swath.hpp"

#include <catch2/catch.hpp>

using namespace podrate;

namespace {

constexpr TimeUs kStartUs = 1751032800 * kSecondUs;

TimeUs at(double s) {
    return kStartUs + static_cast<TimeUs>(s * 1e6);
}

Parameters width(float width_m) {
    Parameters parameters;
    parameters.width_m = width_m;
    return parameters;
}

}  // namespace

TEST_CASE("Area between two speeds is their mean over the time") {
    Swath swath(width(3.0F));
    swath.set_speed(at(0), 1.0F);
    CHECK(swath.take_area() == 0.0F);
    swath.set_speed(at(1), 2.0F);
    CHECK(swath.take_area() == Approx(3.0 * 1.5));
    swath.set_speed(at(3), 1.0F);
    CHECK(swath.take_area() == Approx(3.0 * 1.5 * 2.0));
    CHECK(swath.take_area() == 0.0F);
}

TEST_CASE("A ramp of speeds gives the area of its trapezoids") {
    Swath swath(width(3.3F));
    double truth_m2 = 0.0;
    double area_m2 = 0.0;
    double last = 0.5;
    swath.set_speed(at(0), 0.5F);
    for (int i = 1; i <= 500; ++i) {
        const double speed = 0.5 + 0.002 * i;
        swath.set_speed(at(0.2 * i), static_cast<float>(speed));
        area_m2 += static_cast<double>(swath.take_area());
        truth_m2 += 3.3 * 0.5 * (speed + last) * 0.2;
        last = speed;
    }
    CHECK(area_m2 == Approx(truth_m2).epsilon(1e-5));
}

TEST_CASE("With the reel off nothing is cut") {
    Swath swath(width(3.0F));
    swath.set_reel(at(0), false);
    for (int i = 0; i <= 100; ++i) swath.set_speed(at(0.1 * i), 1.0F);
    CHECK(swath.take_area() == 0.0F);
    CHECK(swath.area_rate_m2ps() == 0.0F);
    swath.set_reel(at(10), true);
    CHECK(swath.area_rate_m2ps() == Approx(3.0));
    swath.set_speed(at(11), 1.0F);
    CHECK(swath.take_area() == Approx(3.0));
}

TEST_CASE("The area ends where the reel stops and not at the next speed") {
    Swath swath(width(3.0F));
    swath.set_reel(at(0), true);
    swath.set_speed(at(0), 1.0F);
    swath.set_reel(at(0.6), false);
    swath.set_speed(at(1), 1.0F);
    CHECK(swath.take_area() == Approx(3.0 * 0.6).epsilon(1e-5));
}

TEST_CASE("A gap of up to a minute between two speeds is bridged and a longer one is not") {
    Swath bridged(width(3.0F));
    bridged.set_speed(at(0), 1.0F);
    bridged.set_speed(at(60), 2.0F);
    CHECK(bridged.take_area() == Approx(3.0 * 1.5 * 60.0));
    Swath open(width(3.0F));
    open.set_speed(at(0), 1.0F);
    open.set_speed(at(60.1), 2.0F);
    CHECK(open.take_area() == 0.0F);
}

TEST_CASE("A speed is held for its hold time and no longer") {
    Parameters parameters = width(3.0F);
    parameters.speed_hold_s = 2.0F;
    Swath swath(parameters);
    swath.set_speed(at(0), 1.0F);
    CHECK(swath.speed_known(at(2)));
    CHECK_FALSE(swath.speed_known(at(2.001)));
    swath.advance(at(1));
    CHECK(swath.take_area() == Approx(3.0));
    swath.advance(at(60));
    CHECK(swath.take_area() == Approx(3.0));
    swath.advance(at(120));
    CHECK(swath.take_area() == 0.0F);
    CHECK_FALSE(Swath(parameters).speed_known(at(0)));
}

TEST_CASE("Held and bridged area is not counted twice") {
    Swath swath(width(3.0F));
    swath.set_speed(at(0), 1.0F);
    swath.advance(at(0.5));
    swath.advance(at(0.8));
    swath.set_speed(at(1), 1.0F);
    CHECK(swath.take_area() == Approx(3.0));
}

TEST_CASE("A creeping machine stands until it is clearly faster") {
    // standing_speed_mps 0.12 by default, with hysteresis of half as much again.
    Swath swath{Parameters{}};
    swath.set_speed(at(0), 0.15F);
    CHECK_FALSE(swath.moving());
    swath.set_speed(at(1), 0.2F);
    CHECK(swath.moving());
    swath.set_speed(at(2), 0.13F);
    CHECK(swath.moving());
    swath.set_speed(at(3), 0.11F);
    CHECK_FALSE(swath.moving());
}

TEST_CASE("The delay line holds what was cut where it was cut") {
    Swath swath(width(3.0F));
    swath.set_speed(at(0), 1.0F);
    for (int i = 1; i <= 10; ++i) swath.set_speed(at(i), i <= 5 ? 1.0F : 2.0F);
    CHECK(swath.line().between(at(1), at(4)) == Approx(9.0).epsilon(1e-5));
    CHECK(swath.line().between(at(6), at(9)) == Approx(18.0).epsilon(1e-5));
}

TEST_CASE("The usual speed is that of harvesting and not of turning") {
    Swath swath{Parameters{}};
    CHECK(swath.usual_speed_mps() == 0.0F);
    for (int i = 0; i <= 1200; ++i) {
        const bool turning = i % 300 > 250;
        swath.set_reel(at(0.2 * i), !turning);
        swath.set_speed(at(0.2 * i), turning ? 1.5F : 0.8F);
    }
    CHECK(swath.usual_speed_mps() == Approx(0.8).epsilon(0.02));
}

TEST_CASE("A crawl and a road drive give no area, and no usual speed") {
    Swath swath(width(3.0F));
    for (int s = 0; s <= 60; ++s) swath.set_speed(at(s), 0.05F);
    CHECK(swath.take_area() == 0.0F);
    CHECK_FALSE(swath.assume_worked(kSecondUs));
    for (int s = 61; s <= 120; ++s) swath.set_speed(at(s), 6.0F);
    swath.take_area();
    swath.set_place(525000000, 0);
    for (int s = 121; s <= 180; ++s) swath.set_speed(at(s), 6.0F);
    CHECK(swath.take_area() == 0.0F);
    CHECK_FALSE(swath.assume_worked(kSecondUs));
    CHECK(swath.usual_speed_mps() == 0.0F);
}
