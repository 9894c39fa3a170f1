// The map of what was cut, as RFC 7946 wants it.
#include "report/harvested_geojson.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "geo/geodesy.hpp"
#include "sim/field_work.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::FieldWalk;

namespace {

constexpr double kWidthM = 3.3;
const LatLon kOrigin{52.6, 2.9};

Ring ring_of(const nlohmann::json& feature) {
    const nlohmann::json& rings = feature["geometry"]["coordinates"];
    REQUIRE(rings.size() == 1);
    REQUIRE(rings[0].size() >= 4);
    CHECK(rings[0].front() == rings[0].back());
    Ring ring;
    for (std::size_t i = 0; i + 1 < rings[0].size(); ++i)
        ring.push_back({rings[0][i][1].get<double>(), rings[0][i][0].get<double>()});
    return ring;
}

}  // namespace

TEST_CASE("Each stretch is a polygon of its area that runs counter-clockwise") {
    const LocalFrame frame(kOrigin);
    Field field;
    field.name = "The \"first\"";
    field.rings = {{frame.to_lat_lon({0, -50}), frame.to_lat_lon({100, -50}), frame.to_lat_lon({100, 200}),
                    frame.to_lat_lon({0, 200})}};
    field.area_ha = 2.5;
    Day day;
    day.fields = {field};
    FieldWalk walk(kOrigin, kWidthM);
    walk.go({20, 0}, {20, 180}, true);
    walk.go({24, 180}, {24, 0}, true);
    walk.go({30, 60}, {400, 90}, true);  // out of the field
    DayResult result;
    result.machines.resize(2);
    result.machines[0].id = "alder";
    result.machines[0].usable = true;
    result.machines[0].parameters.width_m = Real(kWidthM);
    result.machines[0].work = walk.points;
    const auto json = nlohmann::json::parse(harvested_geojson(harvested_stretches(day, result)));
    CHECK(json["type"] == "FeatureCollection");
    REQUIRE(json["features"].size() == 4);
    const double out_m = std::hypot(370.0, 30.0);
    const double areas_m2[] = {180.0 * kWidthM, 180.0 * kWidthM, out_m * 80.0 / 370.0 * kWidthM,
                               out_m * 290.0 / 370.0 * kWidthM};
    for (std::size_t i = 0; i < 4; ++i) {
        INFO("stretch " << i);
        const nlohmann::json& feature = json["features"][i];
        CHECK(feature["type"] == "Feature");
        CHECK(feature["geometry"]["type"] == "Polygon");
        CHECK(feature["properties"]["machine"] == "alder");
        CHECK(feature["properties"]["field"] == (i < 3 ? "The \"first\"" : "field A"));
        CHECK(feature["properties"]["end_unix_s"] > feature["properties"]["start_unix_s"]);
        // Corners stand to 1e-7 degrees, 7 mm; the field ends at its margin of 10 m, to a step.
        const double doubt_m2 = i < 2 ? 0.01 * 180.0 : 12.0 * kWidthM;
        CHECK(ring_area_m2(ring_of(feature)) == Approx(areas_m2[i]).margin(doubt_m2).epsilon(0));
        CHECK(ring_of(feature).size() <= 8);  // a straight way needs no more
    }
    CHECK(
        nlohmann::json::parse(harvested_geojson(harvested_stretches(day, DayResult{})))["features"].empty());
}

TEST_CASE("A winding way is drawn to a tenth of a metre") {
    constexpr double kPi = 3.14159265358979323846;
    constexpr double kRadiusM = 25.0;
    FieldWalk walk(kOrigin, kWidthM);
    walk.point({kRadiusM, 0.0}, 0.0);
    for (int i = 1; i <= 90; ++i) {
        const double angle = kPi * i / 180.0;
        walk.point({kRadiusM * std::cos(angle), kRadiusM * std::sin(angle)}, kPi * kRadiusM / 180.0);
    }
    walk.point({0.0, kRadiusM}, 0.0);
    DayResult result;
    result.machines.resize(1);
    result.machines[0].usable = true;
    result.machines[0].parameters.width_m = Real(kWidthM);
    result.machines[0].work = walk.points;
    const auto json = nlohmann::json::parse(harvested_geojson(harvested_stretches(Day{}, result)));
    REQUIRE(json["features"].size() == 1);
    CHECK(json["features"][0]["properties"]["field"] == "field A");
    CHECK(ring_area_m2(ring_of(json["features"][0])) == Approx(0.5 * kPi * kRadiusM * kWidthM).epsilon(0.01));
    CHECK(ring_of(json["features"][0]).size() < 40);
}
