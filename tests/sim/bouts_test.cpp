#include "synth/land/bouts.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "synth/land/path.hpp"

using namespace podrate::sim;

namespace {

ScenarioField field_of(std::vector<EastNorth> corners, double heading_deg, double headland_m) {
    ScenarioField field;
    field.name = "Test Piece";
    field.corners = std::move(corners);
    field.bout_heading_deg = heading_deg;
    field.headland_m = headland_m;
    return field;
}

// Even-odd, worked out apart.
bool inside(const std::vector<EastNorth>& corners, EastNorth p) {
    bool in = false;
    for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
        const EastNorth a = corners[i];
        const EastNorth b = corners[j];
        if ((a.north_m > p.north_m) == (b.north_m > p.north_m)) continue;
        const double east =
            a.east_m + (p.north_m - a.north_m) / (b.north_m - a.north_m) * (b.east_m - a.east_m);
        if (p.east_m < east) in = !in;
    }
    return in;
}

double area_m2(const std::vector<EastNorth>& corners) {
    double sum = 0.0;
    for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
        sum += corners[j].east_m * corners[i].north_m - corners[i].east_m * corners[j].north_m;
    }
    return std::abs(sum) / 2.0;
}

const std::vector<std::vector<EastNorth>> kShapes = {
    {{0, 0}, {455, 30}, {440, 330}, {-20, 300}},
    {{760, 120}, {1160, 95}, {1180, 300}, {1010, 380}, {770, 340}},
    // An L and a U: bouts of several pieces.
    {{0, 0}, {400, 0}, {400, 150}, {150, 150}, {150, 400}, {0, 400}},
    {{0, 0}, {400, 0}, {400, 300}, {280, 300}, {280, 100}, {120, 100}, {120, 300}, {0, 300}},
};

}  // namespace

TEST_CASE("Bouts lie in the field over their whole length") {
    for (const auto& corners : kShapes) {
        for (double heading = -10.0; heading < 360.0; heading += 33.0) {
            const ScenarioField field = field_of(corners, heading, 12.0);
            const std::vector<Bout> bouts = bouts_of(field, 3.3);
            INFO("heading " << heading);
            REQUIRE(bouts.size() > 20);
            for (const Bout& bout : bouts) {
                REQUIRE_FALSE(bout.taken);
                REQUIRE(distance_between_m(bout.from, bout.to) >= 20.0);
                for (double share = 0.0; share <= 1.0; share += 0.125) {
                    REQUIRE(
                        inside(corners, {bout.from.east_m + share * (bout.to.east_m - bout.from.east_m),
                                         bout.from.north_m + share * (bout.to.north_m - bout.from.north_m)}));
                }
            }
        }
    }
}

TEST_CASE("Bouts run along the heading side by side") {
    const ScenarioField field = field_of(kShapes[0], 86.0, 12.0);
    const std::vector<Bout> bouts = bouts_of(field, 3.3);
    for (std::size_t i = 0; i < bouts.size(); ++i) {
        REQUIRE(heading_from_to_deg(bouts[i].from, bouts[i].to) == Approx(86.0).margin(1e-6));
        if (i == 0) continue;
        // Distance across: how far the next begins from the line of the last.
        const double radians = 86.0 * 3.14159265358979323846 / 180.0;
        const double across = (bouts[i].from.east_m - bouts[i - 1].from.east_m) * std::cos(radians) -
                              (bouts[i].from.north_m - bouts[i - 1].from.north_m) * std::sin(radians);
        REQUIRE(across == Approx((bouts[i - 1].cut_m + bouts[i].cut_m) / 2).margin(1e-6));
        REQUIRE((bouts[i].cut_m == Approx(3.3) || i + 1 == bouts.size()));
    }
}

TEST_CASE("Bouts cover a rectangle without headlands whole and with them the inside") {
    const std::vector<EastNorth> rectangle = {{0, 0}, {300, 0}, {300, 200}, {0, 200}};
    const std::vector<Bout> all = bouts_of(field_of(rectangle, 0.0, 0.0), 4.0);
    REQUIRE(all.size() == 75);
    for (const Bout& bout : all)
        REQUIRE(distance_between_m(bout.from, bout.to) == Approx(200.0).margin(1e-6));
    const std::vector<Bout> inner = bouts_of(field_of(rectangle, 90.0, 10.0), 4.0);
    REQUIRE(inner.size() == 45);
    for (const Bout& bout : inner)
        REQUIRE(distance_between_m(bout.from, bout.to) == Approx(280.0).margin(1e-6));
}

TEST_CASE("Bouts never cover more than the field") {
    for (const auto& corners : kShapes) {
        double covered_m2 = 0.0;
        for (const Bout& bout : bouts_of(field_of(corners, 20.0, 0.0), 3.3)) {
            covered_m2 += bout.cut_m * distance_between_m(bout.from, bout.to);
        }
        // A strip's worth of rounding at the edges.
        CHECK(covered_m2 < area_m2(corners) * 1.02);
        CHECK(covered_m2 > area_m2(corners) * 0.95);
    }
}

TEST_CASE("A field too small for a bout has none") {
    CHECK(bouts_of(field_of({{0, 0}, {30, 0}, {30, 30}, {0, 30}}, 0.0, 12.0), 3.3).empty());
    CHECK(bouts_of(field_of({{0, 0}, {0, 0}, {0, 0}}, 0.0, 12.0), 3.3).empty());
}

TEST_CASE("The last bout is as wide as what is left") {
    const std::vector<EastNorth> rectangle = {{0, 0}, {300, 0}, {300, 202}, {0, 202}};
    const std::vector<Bout> bouts = bouts_of(field_of(rectangle, 90.0, 0.0), 4.0);
    REQUIRE(bouts.size() == 51);
    double width_m = 0.0;
    for (const Bout& bout : bouts) width_m += bout.cut_m;
    CHECK(width_m == Approx(202.0));
    CHECK(bouts.back().cut_m == Approx(2.0));
}

TEST_CASE("Bouts keep clear of obstacles") {
    ScenarioField field = field_of({{0, 0}, {300, 0}, {300, 200}, {0, 200}}, 90.0, 10.0);
    const std::size_t without = bouts_of(field, 4.0).size();
    field.obstacles = {{{150.0, 100.0}, 8.0}};
    const std::vector<Bout> bouts = bouts_of(field, 4.0);
    // Those whose strip touches it come in two.
    CHECK(bouts.size() == without + 5);
    for (const Bout& bout : bouts) {
        for (double share = 0.0; share <= 1.0; share += 0.01) {
            const EastNorth at{bout.from.east_m + share * (bout.to.east_m - bout.from.east_m),
                               bout.from.north_m + share * (bout.to.north_m - bout.from.north_m)};
            REQUIRE(distance_between_m(at, field.obstacles.front().place) > 8.0);
        }
    }
}
