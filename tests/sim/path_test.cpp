#include "synth/land/path.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate::sim;

TEST_CASE("Headings agree with the arc tangent all around") {
    for (int i = 0; i < 3600; ++i) {
        const double radians = i * 0.1 * 3.14159265358979323846 / 180.0;
        const EastNorth a{1000.0, -500.0};
        const EastNorth b{a.east_m + 37.0 * std::sin(radians), a.north_m + 37.0 * std::cos(radians)};
        double wanted =
            std::atan2(b.east_m - a.east_m, b.north_m - a.north_m) * 180.0 / 3.14159265358979323846;
        if (wanted < -1e-9) wanted += 360.0;
        double heading = heading_from_to_deg(a, b);
        // Just west of north may come out as a hair under 360.
        if (heading > 359.9999999 && wanted < 1e-6) heading -= 360.0;
        REQUIRE(heading == Approx(wanted).margin(1e-9));
    }
}

TEST_CASE("A path begins and ends where and how it should") {
    const Pose from{{0.0, 0.0}, 90.0};
    const Pose to{{10.0, 40.0}, 270.0};
    const Path path(from, to, 14.0);
    CHECK(path.length_m() > distance_between_m(from.place, to.place));
    CHECK(distance_between_m(path.at(0.0).place, from.place) < 1e-9);
    CHECK(path.at(0.0).heading_deg == Approx(90.0).margin(1.0));
    CHECK(distance_between_m(path.at(path.length_m()).place, to.place) < 1e-9);
    CHECK(path.at(path.length_m()).heading_deg == Approx(270.0).margin(1.0));
}

TEST_CASE("Distances along a path are distances on the ground") {
    const Path path({{0.0, 0.0}, 0.0}, {{30.0, 5.0}, 180.0}, 14.0);
    double walked_m = 0.0;
    EastNorth last = path.at(0.0).place;
    for (double at_m = 0.05; at_m <= path.length_m(); at_m += 0.05) {
        const EastNorth here = path.at(at_m).place;
        const double step_m = distance_between_m(last, here);
        REQUIRE(step_m == Approx(0.05).margin(0.002));
        walked_m += step_m;
        last = here;
    }
    CHECK(walked_m == Approx(path.length_m()).margin(0.1));
}

TEST_CASE("Beyond its ends a path stays at them") {
    const Path path({{0.0, 0.0}, 0.0}, {{0.0, 50.0}, 0.0}, 14.0);
    CHECK(distance_between_m(path.at(-5.0).place, {0.0, 0.0}) < 1e-9);
    CHECK(distance_between_m(path.at(1e6).place, {0.0, 50.0}) < 1e-9);
}
