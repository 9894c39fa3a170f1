// Covered ground against plane geometry.
#include "fields/ground_raster.hpp"

#include <catch2/catch.hpp>

using namespace podrate::sim;

namespace {

constexpr double kPi = 3.14159265358979323846;

EastNorth turned(EastNorth p, double by_deg) {
    const double c = std::cos(by_deg * kPi / 180.0);
    const double s = std::sin(by_deg * kPi / 180.0);
    return {c * p.east_m - s * p.north_m, s * p.east_m + c * p.north_m};
}

// A rectangle from (west, south), turned about the origin.
void cover_rectangle(GroundRaster& ground, EastNorth low, EastNorth high, double by_deg) {
    const EastNorth a = turned(low, by_deg);
    const EastNorth b = turned({high.east_m, low.north_m}, by_deg);
    const EastNorth c = turned(high, by_deg);
    const EastNorth d = turned({low.east_m, high.north_m}, by_deg);
    ground.cover_triangle(a, b, c);
    ground.cover_triangle(a, c, d);
}

std::vector<EastNorth> circle(EastNorth middle, double radius_m) {
    std::vector<EastNorth> ring;
    for (int i = 0; i < 720; ++i) {
        const EastNorth on = turned({radius_m, 0.0}, 0.5 * i);
        ring.push_back({middle.east_m + on.east_m, middle.north_m + on.north_m});
    }
    return ring;
}

}  // namespace

TEST_CASE("A rectangle of ground has its area at any angle, and counts once") {
    for (const double by_deg : {0.0, 7.0, 30.0, 45.0, 90.0, 133.0, 201.0}) {
        INFO(by_deg << " degrees");
        GroundRaster ground;
        cover_rectangle(ground, {-40.03, -2.71}, {61.31, 30.56}, by_deg);
        const double area_m2 = 101.34 * 33.27;
        CHECK(ground.area_m2() == Approx(area_m2).epsilon(0.002));
        const double before_m2 = ground.area_m2();
        cover_rectangle(ground, {-30.0, 0.0}, {50.0, 20.0}, by_deg);
        CHECK(ground.area_m2() == before_m2);
    }
}

TEST_CASE("Two bands that cross cover their sum less the crossing") {
    for (const double by_deg : {0.0, 21.0, 45.0}) {
        INFO(by_deg << " degrees");
        GroundRaster ground;
        cover_rectangle(ground, {-100.0, -1.65}, {100.0, 1.65}, by_deg);
        cover_rectangle(ground, {-1.65, -80.0}, {1.65, 80.0}, by_deg);
        // Where they run along the cells or their diagonals each edge is right to half a cell.
        const double doubt_m2 = by_deg != 21.0 ? GroundRaster::kCellM * (200.0 + 160.0) : 3.0;
        CHECK(ground.area_m2() == Approx(200.0 * 3.3 + 160.0 * 3.3 - 3.3 * 3.3).margin(doubt_m2).epsilon(0));
    }
}

TEST_CASE("Bands that share an edge leave no cell between them") {
    GroundRaster ground;
    for (int i = 0; i < 30; ++i) cover_rectangle(ground, {-50.0, 3.3 * i}, {50.0, 3.3 * (i + 1)}, 17.0);
    GroundRaster whole;
    cover_rectangle(whole, {-50.0, 0.0}, {50.0, 99.0}, 17.0);
    CHECK(ground.area_m2() ==
          Approx(whole.area_m2()).margin(4 * GroundRaster::kCellM * GroundRaster::kCellM));
}

TEST_CASE("Rings are even-odd: holes stay bare, and what is kept adds up") {
    const PlaneRings ring = {circle({10.0, -5.0}, 60.0), circle({10.0, -5.0}, 25.0)};
    GroundRaster ground;
    ground.cover(ring);
    CHECK(ground.area_m2() == Approx(kPi * (60.0 * 60.0 - 25.0 * 25.0)).epsilon(0.001));

    const PlaneRings cut = {circle({10.0, -5.0}, 40.0)};
    GroundRaster inside = ground;
    inside.keep_inside(cut);
    CHECK(inside.area_m2() == Approx(kPi * (40.0 * 40.0 - 25.0 * 25.0)).epsilon(0.001));
    GroundRaster outside = ground;
    outside.keep_outside(cut);
    CHECK(inside.area_m2() + outside.area_m2() == ground.area_m2());
    outside.cover(inside);
    CHECK(outside.area_m2() == ground.area_m2());
}

TEST_CASE("Slits of less than a metre are closed, wider ones not, and outer edges stay") {
    for (const double by_deg : {0.0, 10.0, 45.0, 77.0}) {
        INFO(by_deg << " degrees");
        const auto two_bands = [by_deg](double slit_m) {
            GroundRaster ground;
            cover_rectangle(ground, {-60.0, 0.0}, {60.0, 10.0}, by_deg);
            cover_rectangle(ground, {-60.0, 10.0 + slit_m}, {60.0, 20.0 + slit_m}, by_deg);
            return ground;
        };
        GroundRaster narrow = two_bands(0.8);
        narrow.close_slits();
        CHECK(narrow.area_m2() == Approx(120.0 * 20.8).epsilon(0.003));
        GroundRaster wide = two_bands(1.7);
        const double before_m2 = wide.area_m2();
        wide.close_slits();
        CHECK(wide.area_m2() == Approx(before_m2).epsilon(0.003));
    }
    GroundRaster none;
    none.close_slits();
    CHECK(none.area_m2() == 0.0);
}
