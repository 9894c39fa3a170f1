#include "podrate/work/slip_watch.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "podrate/work/swath.hpp"

using namespace podrate;

namespace {

constexpr std::int32_t kLatE7 = 525000000;
constexpr std::int32_t kNorthE7 = 10000;  // 0.001 degrees

// Legs of which the wheels tell `told_m` each, northwards by `true_m` on the ellipsoid at 52.5 degrees.
double factor_after(int legs, double told_m, double true_m) {
    SlipWatch slip;
    constexpr double kMetresPerE7 = 111.276842411 / kNorthE7;
    for (int i = 0; i <= legs; ++i) {
        slip.pass(kLatE7 + static_cast<std::int32_t>(std::lround(i * true_m / kMetresPerE7)), 0);
        slip.roll(static_cast<Real>(told_m));
    }
    return static_cast<double>(slip.factor());
}

}  // namespace

TEST_CASE("A leg between two places of known distance gives the slip") {
    // GeographicLib 2.1.2: (52.5, 0) to (52.501, 0.001) is 130.361922444 m, to (52.5, 0.001) 67.910233422 m.
    struct Leg {
        std::int32_t north_e7, east_e7;
        double true_m;
    };
    for (const Leg& leg : {Leg{10000, 10000, 130.361922444}, Leg{0, 20000, 2 * 67.910233422}}) {
        SlipWatch slip;
        for (int i = 0; i < 400; ++i) {
            const int back = i % 2;
            slip.pass(kLatE7 + back * leg.north_e7, back * leg.east_e7);
            slip.roll(static_cast<Real>(leg.true_m * 1.03));
        }
        CHECK(1.03 * static_cast<double>(slip.factor()) == Approx(1.0).epsilon(2e-4));
    }
}

TEST_CASE("One leg is believed as far as its places are, many nearly wholly") {
    const double one = factor_after(1, 103.0, 100.0);
    CHECK(one < 0.99);
    CHECK(one > 100.0 / 103.0 + 0.002);
    CHECK(factor_after(60, 103.0, 100.0) == Approx(100.0 / 103.0).margin(0.001));
}

TEST_CASE("A ratio that no slip explains is passed over") {
    CHECK(factor_after(20, 110.0, 100.0) == 1.0);  // bent, or jumped
    CHECK(factor_after(20, 110.0, 0.0) == 1.0);    // the receiver stands still
    CHECK(factor_after(20, 100.0, 108.0) == 1.0);
}

TEST_CASE("A short leg waits until it is long enough") {
    SlipWatch slip;
    slip.pass(kLatE7, 0);
    slip.roll(Real(50));
    slip.pass(kLatE7 + 4000, 0);  // 44.5 m
    CHECK(slip.factor() == Real(1));
    slip.roll(Real(55));
    slip.pass(kLatE7 + 9000, 0);  // 100.1 m in all
    CHECK(slip.factor() < Real(1));
}

TEST_CASE("A leg across the antimeridian is as long as any") {
    SlipWatch slip;
    for (int i = 0; i < 100; ++i) {
        slip.pass(0, i % 2 == 0 ? 1799995000 : -1799995000);  // 0.001 degrees on the equator: 111.319 m
        slip.roll(Real(111.319 * 1.02));
    }
    CHECK(static_cast<double>(slip.factor()) == Approx(1.0 / 1.02).margin(0.001));
}

TEST_CASE("The area is that of the ground passed, and a turn is no part of a leg") {
    Parameters parameters;
    parameters.width_m = 3.0F;
    Swath swath(parameters);
    constexpr double kTrueMps = 1.0;
    constexpr double kMetresPerE7 = 111.276842411 / kNorthE7;
    double north_m = 0.0;
    double area_m2 = 0.0;
    for (int s = 0; s <= 4000; ++s) {
        const TimeUs now_us = s * kSecondUs;
        // Every 400 m a turn of 40 s that leads back to where it began.
        const bool turning = s % 440 >= 400;
        swath.set_reel(now_us, !turning);
        if (!turning) north_m += kTrueMps;
        swath.set_place(kLatE7 + static_cast<std::int32_t>(std::lround(north_m / kMetresPerE7)), 0);
        swath.set_speed(now_us, static_cast<Real>(1.025 * kTrueMps));
        const auto new_m2 = static_cast<double>(swath.take_area());
        if (s > 3520) area_m2 += new_m2;
    }
    CHECK(swath.speed_mps() == Approx(kTrueMps).epsilon(0.002));
    CHECK(area_m2 == Approx(3.0 * (400 + 40)).epsilon(0.004));
}
