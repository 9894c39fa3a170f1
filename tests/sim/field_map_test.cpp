// Which field a place belongs to: margins, nested and touching fields, and fields found without a boundary.
#include "fields/field_map.hpp"

#include <catch2/catch.hpp>

#include "fields/field_finder.hpp"
#include "geo/geodesy.hpp"
#include "sim/field_work.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::FieldWalk;

namespace {

const LatLon kOrigin{52.6, 2.9};

Field box(const std::string& name, double west, double south, double east, double north) {
    const LocalFrame frame(kOrigin);
    Field field;
    field.name = name;
    field.rings = {{frame.to_lat_lon({west, south}), frame.to_lat_lon({east, south}),
                    frame.to_lat_lon({east, north}), frame.to_lat_lon({west, north})}};
    field.area_ha = std::abs(ring_area_m2(field.rings[0])) / 1e4;
    return field;
}

struct Placed {
    const std::vector<Field> fields;
    FieldMap map{fields};
    [[nodiscard]] int at(double east_m, double north_m) const {
        return map.at(LocalFrame(kOrigin).to_lat_lon({east_m, north_m}));
    }
};

}  // namespace

TEST_CASE("A place some metres outside a boundary belongs to the nearest field, one further out to none") {
    const Placed p{{box("A", 0, 0, 100, 100), box("B", 112, 0, 200, 100)}};
    CHECK(p.at(50, 50) == 0);
    CHECK(p.at(-9.5, 50) == 0);
    CHECK(p.at(-10.5, 50) == -1);
    CHECK(p.at(50, 109.5) == 0);
    CHECK(p.at(104, 50) == 0);
    CHECK(p.at(108, 50) == 1);
    CHECK(p.at(106, -20) == -1);
    CHECK(Placed{{}}.at(50, 50) == -1);
}

TEST_CASE("Of nested fields a place belongs to the innermost, in whatever order they stand") {
    const Placed outer_first{
        {box("outer", 0, 0, 300, 300), box("plot", 100, 100, 160, 160), box("strip", 110, 110, 120, 150)}};
    CHECK(outer_first.at(50, 50) == 0);
    CHECK(outer_first.at(102, 102) == 1);
    CHECK(outer_first.at(140, 140) == 1);
    CHECK(outer_first.at(111, 112) == 2);
    CHECK(outer_first.at(98, 130) == 0);  // beside the plot, but in the outer one
    const Placed inner_first{{box("plot", 100, 100, 160, 160), box("outer", 0, 0, 300, 300)}};
    CHECK(inner_first.at(130, 130) == 0);
    CHECK(inner_first.at(50, 50) == 1);
}

TEST_CASE("Where two fields overlap a little a place belongs to the one it lies deeper in") {
    const Placed p{{box("A", 0, 0, 104, 100), box("B", 100, 0, 200, 100)}};
    CHECK(p.at(101, 50) == 0);
    CHECK(p.at(103, 50) == 1);
    CHECK(p.at(99, 50) == 0);
    CHECK(p.at(106, 50) == 1);
}

TEST_CASE("A hole is none of the field's, but its rim is within the margin") {
    Field field = box("holed", 0, 0, 200, 200);
    field.rings.push_back(box("", 60, 60, 140, 140).rings[0]);
    const Placed p{{field}};
    CHECK(p.at(30, 30) == 0);
    CHECK(p.at(65, 100) == 0);
    CHECK(p.at(100, 100) == -1);
}

TEST_CASE("Fields without a boundary are found where crop was cut, a gap apart") {
    FieldWalk walk(kOrigin, 3.3);
    walk.go({2000, 0}, {2200, 0}, true);  // the second in its place, the first in time
    walk.go({2200, 0}, {700, 0}, false);  // the road
    walk.go({700, 0}, {600, 150}, true);  // another field
    walk.go({600, 150}, {480, 150}, false);
    walk.go({480, 150}, {300, 150}, true);  // goes on 120 m further: still that field
    walk.go({0, 0}, {50, 0}, true);         // within a boundary
    walk.go({5000, 0}, {5004, 0}, true);    // a reel tried out
    const std::vector<Field> fields = {box("Home", 0, -50, 100, 50), box("field A", -900, 0, -800, 90)};
    const FieldFinder finder(fields, {&walk.points});
    REQUIRE(finder.count() == 4);
    CHECK(finder.name(0) == "Home");
    CHECK(finder.name(2) == "field B");  // the letter A is taken
    CHECK(finder.name(3) == "field C");
    const auto at = [&finder](double east_m, double north_m) {
        return finder.at(LocalFrame(kOrigin).to_lat_lon({east_m, north_m}));
    };
    CHECK(at(2100, 0) == 2);
    CHECK(at(650, 75) == 3);
    CHECK(at(400, 150) == 3);
    CHECK(at(20, 0) == 0);
    CHECK(at(5002, 0) == -1);
    CHECK(at(1500, 0) == -1);
}
