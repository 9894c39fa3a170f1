// Fields harvested whole: the ground covered against the polygon's geodesic area (GeographicLib: Planimeter's
// figures where they stand as numbers), and ways whose area plane geometry tells.
#include "fields/field_ground.hpp"

#include <catch2/catch.hpp>

#include "geo/geodesy.hpp"
#include "sim/field_work.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::FieldWalk;

namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kWidthM = 3.3;
constexpr double kOverlapM = 0.12;

Field field_of(const std::string& name, const Ring& ring) {
    Field field;
    field.name = name;
    field.rings = {ring};
    field.area_ha = std::abs(ring_area_m2(ring)) / 1e4;
    return field;
}

FieldGround ground_of(const std::vector<Field>& fields, const std::vector<WorkPoint>& points,
                      std::size_t which = 0) {
    const FieldFinder finder(fields, {&points});
    return field_ground(fields, finder, cut_strips(points, kWidthM)).at(which);
}

// Two rounds along the edges of a rectangle of that size, then bouts across it; the last is as narrow as what
// is left. Of the bouts every fourth from `leave_from` on is left out.
void harvest_rectangle(FieldWalk& walk, double east_m, double north_m, int leave_from = 1000) {
    const double step_m = kWidthM - kOverlapM;
    for (int round = 0; round < 2; ++round) {
        const double in_m = 0.5 * kWidthM + round * step_m;
        walk.go({in_m, 0.0}, {in_m, north_m}, true);
        walk.go({0.0, north_m - in_m}, {east_m, north_m - in_m}, true);
        walk.go({east_m - in_m, north_m}, {east_m - in_m, 0.0}, true);
        walk.go({east_m, in_m}, {0.0, in_m}, true);
    }
    const double headland_m = 2.0 * step_m;
    const double last_m = east_m - headland_m - 0.5 * kWidthM;
    bool north = true;
    int bout = 0;
    for (double at_m = headland_m + 0.5 * kWidthM; at_m < last_m + step_m; at_m += step_m) {
        const double here_m = std::min(at_m, last_m);
        const double from_m = north ? headland_m : north_m - headland_m;
        if (bout < leave_from || bout % 4 != 0) walk.go({here_m, from_m}, {here_m, north_m - from_m}, true);
        north = !north;
        ++bout;
    }
}

}  // namespace

TEST_CASE("A field harvested whole has the area that Planimeter gives its polygon") {
    const struct {
        Ring ring;
        double area_m2;
        double east_m;
        double north_m;
    } cases[] = {{{{52.5, 0.0},
                   {52.50179731902983, 0.0},
                   {52.50179730986758, 0.00147259217179},
                   {52.49999999083835, 0.00147253211993}},
                  20000.0,
                  100.0,
                  200.0},
                 {{{52.5, 0.0}, {52.5, 0.002}, {52.501, 0.002}, {52.501, 0.0}}, 15113.5, 135.820, 111.277}};
    for (const auto& c : cases) {
        for (const double wander_m : {0.0, 0.25}) {
            INFO(c.area_m2 << " m2, receiver wandering by " << wander_m << " m");
            FieldWalk walk({52.5, 0.0}, kWidthM);
            walk.wander_m = wander_m;
            harvest_rectangle(walk, c.east_m, c.north_m);
            const FieldGround ground = ground_of({field_of("Whole", c.ring)}, walk.points);
            CHECK(ground.own_m2 == Approx(c.area_m2).margin(0.05));
            CHECK(ground.covered_m2 == Approx(c.area_m2).epsilon(0.005));
            const double perimeter_m = 2.0 * (c.east_m + c.north_m);
            CHECK(ground.beyond_m2 < (wander_m + 0.5 * GroundRaster::kCellM) * perimeter_m);
        }
    }
}

TEST_CASE("A slanting field worked by bouts that run out over its edges is covered once and whole") {
    const LocalFrame frame({52.6, 2.9});
    const std::vector<EastNorth> corners = {{0, 0}, {455, 30}, {440, 330}, {-20, 300}};
    Ring ring;
    for (const EastNorth corner : corners) ring.push_back(frame.to_lat_lon(corner));
    FieldWalk walk({52.6, 2.9}, kWidthM);
    walk.speed_mps = 1.6;
    const double slope = 0.36;  // of the bouts
    bool east = true;
    for (double at_m = -180.0; at_m < 345.0; at_m += (kWidthM - kOverlapM) * std::hypot(1.0, slope)) {
        const EastNorth one{-40.0, at_m - slope * 40.0};
        const EastNorth other{475.0, at_m + slope * 475.0};
        walk.go(east ? one : other, east ? other : one, true);
        east = !east;
    }
    const Field field = field_of("Slanting", ring);
    const FieldGround ground = ground_of({field}, walk.points);
    CHECK(ground.covered_m2 == Approx(std::abs(ring_area_m2(ring))).epsilon(0.005));
}

TEST_CASE("Bouts left standing are left") {
    FieldWalk walk({52.5, 0.0}, kWidthM);
    harvest_rectangle(walk, 100.0, 200.0, 8);  // bouts 8, 12, 16, 20 and 24
    const Field field = field_of("Gappy", {{52.5, 0.0},
                                           {52.50179731902983, 0.0},
                                           {52.50179730986758, 0.00147259217179},
                                           {52.49999999083835, 0.00147253211993}});
    const double bout_m2 = (kWidthM - 2.0 * kOverlapM) * (200.0 - 4.0 * kWidthM + 2.0 * kOverlapM);
    CHECK(ground_of({field}, walk.points).covered_m2 == Approx(20000.0 - 5.0 * bout_m2).epsilon(0.005));
}

TEST_CASE("A round way covers two pi times its radius times the width") {
    FieldWalk walk({52.6, 2.9}, kWidthM);
    constexpr double kRadiusM = 15.0;
    constexpr int kSteps = 100;
    const double step_m = 2.0 * kPi * kRadiusM / kSteps;
    for (int i = 0; i <= kSteps; ++i) {
        const double angle = 2.0 * kPi * i / kSteps;
        walk.point({kRadiusM * std::cos(angle), kRadiusM * std::sin(angle)}, i == 0 ? 0.0 : step_m);
    }
    walk.point({kRadiusM, 0.0}, 0.0);
    CHECK(ground_of({}, walk.points).covered_m2 == Approx(2.0 * kPi * kRadiusM * kWidthM).epsilon(0.005));
}

TEST_CASE("Ground of two fields that touch goes to each, and a nested one is not its outer one's") {
    const LocalFrame frame({52.6, 2.9});
    const auto box = [&frame](double west, double south, double east, double north) {
        return Ring{frame.to_lat_lon({west, south}), frame.to_lat_lon({east, south}),
                    frame.to_lat_lon({east, north}), frame.to_lat_lon({west, north})};
    };
    const std::vector<Field> fields = {field_of("West", box(0, 0, 50, 60)),
                                       field_of("East", box(50, 0, 90, 60)),
                                       field_of("Plot", box(60, 20, 80, 40))};
    FieldWalk walk({52.6, 2.9}, kWidthM);
    for (double north_m = 0.5 * kWidthM; north_m < 61.0; north_m += kWidthM - kOverlapM)
        walk.go({0.0, north_m}, {90.0, north_m}, true);
    const FieldFinder finder(fields, {&walk.points});
    REQUIRE(finder.count() == 3);
    const std::vector<FieldGround> grounds = field_ground(fields, finder, cut_strips(walk.points, kWidthM));
    CHECK(grounds[0].covered_m2 == Approx(3000.0).epsilon(0.005));
    CHECK(grounds[1].own_m2 == Approx(2000.0).epsilon(0.002));
    CHECK(grounds[1].covered_m2 == Approx(2000.0).epsilon(0.005));
    CHECK(grounds[2].covered_m2 == Approx(400.0).epsilon(0.01));
    for (const FieldGround& ground : grounds) CHECK(ground.beyond_m2 < 3.0 * 60.0);
}

TEST_CASE("A wild place is passed over and a silent receiver bridged where the way was straight") {
    FieldWalk clean({52.6, 2.9}, kWidthM);
    clean.go({0.0, 0.0}, {160.0, 120.0}, true);
    std::vector<WorkPoint> wild = clean.points;
    wild[60].lat_e7 += 9000;  // 100 m off
    std::vector<WorkPoint> silent = clean.points;
    for (std::size_t i = 100; i < 130; ++i) silent[i].placed = false;
    std::vector<WorkPoint> lost = silent;  // it wandered off meanwhile
    for (std::size_t i = 130; i < lost.size(); ++i) lost[i].lat_e7 += 4500;
    const double whole_m2 = 200.0 * kWidthM;
    CHECK(ground_of({}, clean.points).covered_m2 == Approx(whole_m2).epsilon(0.005));
    CHECK(ground_of({}, wild).covered_m2 == Approx(whole_m2).epsilon(0.005));
    CHECK(ground_of({}, silent).covered_m2 == Approx(whole_m2).epsilon(0.005));
    CHECK(ground_of({}, lost).covered_m2 == Approx(whole_m2 - 37 * 0.9 * kWidthM).epsilon(0.01));
}

TEST_CASE("The reel's on and off within a second count to the metre") {
    FieldWalk walk({52.6, 2.9}, kWidthM);
    walk.speed_mps = 2.0;
    const auto at = [](double gone_m) { return EastNorth{0.8 * gone_m, 0.6 * gone_m}; };
    walk.point(at(0.0), 0.0);
    walk.point(at(2.0), 0.5);  // on for the last half metre
    for (int i = 2; i < 60; ++i) walk.point(at(2.0 * i), 2.0);
    walk.point(at(120.0), 1.0);  // off after a metre
    walk.point(at(122.0), 0.0);
    CHECK(ground_of({}, walk.points).covered_m2 == Approx(117.5 * kWidthM).epsilon(0.003));
}
