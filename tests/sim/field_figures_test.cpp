// What each field gave, from machines made by hand.
#include "fields/field_figures.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "geo/geodesy.hpp"
#include "report/fields_csv.hpp"
#include "report/html/fields_html.hpp"
#include "report/summary_json.hpp"
#include "sim/field_work.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::FieldWalk;

namespace {

constexpr double kWidthM = 3.3;
constexpr double kDeadS = 6.0;
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

// The estimator tells a place's yield a dead time after it was cut.
std::vector<WorkPoint> told_late(std::vector<WorkPoint> points) {
    std::vector<WorkPoint> late = points;
    const auto by = static_cast<std::size_t>(kDeadS);
    for (std::size_t i = 0; i < points.size(); ++i)
        late[i].yield_kgpm2 = points[i < by ? 0 : i - by].yield_kgpm2;
    return late;
}

MachineResult machine_with(const std::string& id, std::vector<WorkPoint> points, double harvested_kg) {
    MachineResult m;
    m.id = id;
    m.usable = true;
    m.parameters.width_m = Real(kWidthM);
    m.work = std::move(points);
    m.last.harvested_kg = static_cast<Real>(harvested_kg);
    m.drum_dead_time_s = kDeadS;
    m.curve.picking_share = Real(0.04);
    m.curve.level_a = LossCurve<Real>::level_for(Real(0.05));
    m.feed_per_pea = Real(5.2);
    m.loss_memory.level_variance = Real(0.09);
    m.loss_memory.ln_picking_variance = Real(0.09);
    LossBook book(m.curve.rated_feed_kgps, m.feed_per_pea);
    book.add(static_cast<Real>(harvested_kg), Real(0.5 * 0.9 * kWidthM), Real(0));
    m.lost = book.so_far(m.curve, m.loss_memory.level_variance, m.loss_memory.ln_picking_variance, Real(0));
    return m;
}

Day day_of(std::vector<Field> fields, std::size_t machines) {
    Day day;
    day.fields = std::move(fields);
    day.machines.resize(machines);
    return day;
}

// 0.6 kg/m2 in the one, 0.3 in the other, driven from one into the other without a break.
MachineResult two_yields(double harvested_kg) {
    FieldWalk walk(kOrigin, kWidthM);
    for (int bout = 0; bout < 4; ++bout) {
        walk.yield_kgpm2 = 0.6;
        walk.go({0.0, 3.3 * bout}, {99.9, 3.3 * bout}, true);
        walk.points.pop_back();
        walk.yield_kgpm2 = 0.3;
        walk.go({99.9, 3.3 * bout}, {199.8, 3.3 * bout}, true);
    }
    return machine_with("alder", told_late(walk.points), harvested_kg);
}

}  // namespace

TEST_CASE("Peas belong to the field where they were cut, and all fields add up to the machine") {
    const double area_m2 = 4 * 99.9 * kWidthM;
    const double harvested_kg = 1.05 * area_m2 * (0.6 + 0.3);  // the scale says more than yield times area
    const Day day = day_of({box("rich", 0, -5, 99.9, 20), box("poor", 99.9, -5, 210, 20)}, 1);
    const auto fields = field_figures(day, {two_yields(harvested_kg)});
    REQUIRE(fields.size() == 2);
    CHECK(fields[0].harvested_kg == Approx(1.05 * 0.6 * area_m2).epsilon(0.005));
    CHECK(fields[1].harvested_kg == Approx(1.05 * 0.3 * area_m2).epsilon(0.005));
    CHECK(fields[0].harvested_kg + fields[1].harvested_kg == Approx(harvested_kg).margin(0.001));
    CHECK(fields[0].yield_tpha() == Approx(6.3).epsilon(0.01));
    CHECK(fields[1].yield_tpha() == Approx(3.15).epsilon(0.01));
}

TEST_CASE("What has no place goes elsewhere, and nothing is lost by it") {
    MachineResult m = two_yields(1000.0);
    for (WorkPoint& point : m.work) point.placed = false;
    MachineResult placed = two_yields(700.0);
    MachineResult refused = two_yields(9000.0);
    refused.usable = false;
    const auto fields = field_figures(day_of({box("all", 0, -5, 210, 20)}, 3), {m, placed, refused});
    REQUIRE(fields.size() == 2);
    CHECK(fields[0].harvested_kg == Approx(700.0).margin(0.001));
    CHECK(fields[1].elsewhere);
    CHECK(fields[1].harvested_kg == Approx(1000.0).margin(0.001));
    CHECK(fields[1].covered_m2 == 0.0);
    // With neither boundaries nor places there is no field to tell of.
    CHECK(field_figures(day_of({}, 1), {m}).empty());
}

TEST_CASE("Without a speed peas go where the machine was when they came") {
    MachineResult m = two_yields(900.0);
    for (WorkPoint& point : m.work) {
        const bool rich =
            point.area_m2 > 0.0F && point.place().lon_deg < LocalFrame(kOrigin).to_lat_lon({99.9, 0}).lon_deg;
        point.gained_kg = rich ? 2.0F : 1.0F;
        point.area_m2 = 0.0F;
    }
    const Day day = day_of({box("rich", 0, -5, 99.9, 20), box("poor", 99.9, -5, 210, 20)}, 1);
    const auto fields = field_figures(day, {m});
    REQUIRE(fields.size() == 2);
    CHECK(fields[0].harvested_kg + fields[1].harvested_kg == Approx(900.0).margin(0.001));
    CHECK(fields[0].harvested_kg == Approx(600.0).epsilon(0.03));
}

TEST_CASE("One machine in one field has there the loss that it tells of its day") {
    FieldWalk walk(kOrigin, kWidthM);
    for (int bout = 0; bout < 3; ++bout) walk.go({0.0, 3.3 * bout}, {180.0, 3.3 * bout}, true);
    const double kg = 0.5 * 3 * 180.0 * kWidthM;
    const MachineResult m = machine_with("alder", walk.points, kg);
    const auto fields = field_figures(day_of({box("all", 0, -5, 200, 20)}, 1), {m});
    REQUIRE(fields.size() == 1);
    REQUIRE(fields[0].loss.has_value());
    CHECK(static_cast<double>(fields[0].loss->share) ==
          Approx(static_cast<double>(m.lost.shares.total.share)).epsilon(0.01));
    CHECK(static_cast<double>(fields[0].loss->low) ==
          Approx(static_cast<double>(m.lost.shares.total.low)).epsilon(0.03));
    CHECK(static_cast<double>(fields[0].loss->high) ==
          Approx(static_cast<double>(m.lost.shares.total.high)).epsilon(0.03));
    CHECK(fields[0].lost_kg_per_ha(fields[0].loss->share) * fields[0].covered_m2 / 1e4 ==
          Approx(static_cast<double>(m.lost.lost_kg)).epsilon(0.01));
    // Two like it are no surer together: they may be wrong the same way.
    const auto both = field_figures(day_of({box("all", 0, -5, 200, 20)}, 2), {m, m});
    CHECK(static_cast<double>(both[0].loss->high) ==
          Approx(static_cast<double>(fields[0].loss->high)).epsilon(1e-4));
    MachineResult blind = m;
    blind.lost = {};
    CHECK_FALSE(field_figures(day_of({box("all", 0, -5, 200, 20)}, 1), {blind})[0].loss.has_value());
}

TEST_CASE("Hours, work rate, capacity and cost of a field follow from its machines") {
    FieldWalk walk(kOrigin, kWidthM);
    walk.speed_mps = 1.0;
    for (int bout = 0; bout < 4; ++bout) {
        walk.go({0.0, 1.65 * bout}, {200.0, 1.65 * bout}, true);  // half of each bout was cut before
        for (int s = 0; s < 48; ++s) walk.point({200.0, 1.65 * bout}, 0.0);
    }
    const MachineResult m = machine_with("alder", walk.points, 1000.0);
    Day day = day_of({box("all", 0, -5, 200, 20), box("bare", 900, 0, 990, 90)}, 2);
    day.machines[0].cost_per_h = 300.0;
    day.machines[1].cost_per_h = 200.0;
    const auto fields = field_figures(day, {m, m});
    REQUIRE(fields.size() == 2);
    const FieldFigures& f = fields[0];
    CHECK(f.machines == 2);
    CHECK(f.in_field_h == Approx(2 * 1000.0 / 3600.0).epsilon(0.001));
    CHECK(f.efficiency == Approx(0.8).epsilon(0.001));
    CHECK(f.capacity_ha_per_h == Approx(3.6 * kWidthM * 0.8 / 10.0).epsilon(0.001));
    CHECK(f.swept_m2 == Approx(2 * 800.0 * kWidthM).epsilon(0.001));
    CHECK(f.covered_m2 == Approx(200.0 * 2.5 * kWidthM).epsilon(0.005));
    CHECK(f.left_m2 == Approx(200.0 * 25.0 - f.covered_m2).epsilon(0.001));
    CHECK(f.work_rate_ha_per_h == Approx(f.covered_m2 / 1e4 / f.in_field_h));
    REQUIRE(f.cost.has_value());
    CHECK(*f.cost == Approx(1000.0 / 3600.0 * 500.0).epsilon(0.001));
    CHECK(fields[1].machines == 0);
    CHECK(fields[1].covered_m2 == 0.0);
    CHECK(fields[1].left_m2 == Approx(8100.0).epsilon(0.001));
    CHECK_FALSE(fields[1].cost.has_value());
    day.machines[1].cost_per_h.reset();
    CHECK_FALSE(field_figures(day, {m, m})[0].cost.has_value());
}

TEST_CASE("Fields are told alike in table, summary and page") {
    DayResult result;
    FieldFigures f;
    f.name = "Long, \"Low\" & wet";
    f.bounded = true;
    f.field_m2 = 100000.0;
    f.covered_m2 = 80000.0;
    f.left_m2 = 20000.0;
    f.beyond_m2 = 1000.0;
    f.swept_m2 = 85000.0;
    f.harvested_kg = 40000.0;
    f.loss = Share{Real(0.2), Real(0.1), Real(0.5)};
    f.in_field_h = 10.0;
    f.work_rate_ha_per_h = 0.8;
    f.capacity_ha_per_h = 0.85;
    f.efficiency = 0.75;
    f.machines = 3;
    FieldFigures elsewhere;
    elsewhere.name = "elsewhere";
    elsewhere.elsewhere = true;
    elsewhere.harvested_kg = 12.0;
    result.fields = {f, elsewhere};
    const std::string csv = fields_csv(result);
    CHECK(csv.find("\n\"Long, \"\"Low\"\" & "
                   "wet\",10.0000,8.0000,2.0000,0.1000,8.5000,40.0000,5.000,20.00,10.00,50.00,"
                   "1250.0,555.6,5000.0,3,10.000,0.800,0.850,75.0,,,,,\n") != std::string::npos);
    CHECK(csv.find("\nelsewhere,,,,,0.0000,0.0120,,,,,,,,0,0.000,,,,,,,,\n") != std::string::npos);
    const auto json = nlohmann::json::parse(summary_json(Day{}, result))["fields"];
    REQUIRE(json.size() == 2);
    CHECK(json[0]["area_ha"] == 8.0);
    CHECK(json[0]["left_ha"] == 2.0);
    CHECK(json[0]["yield_tpha"] == 5.0);
    CHECK(json[0]["lost_kgpha"] == 1250.0);
    CHECK(json[0]["cost"].is_null());
    CHECK(json[1]["area_ha"].is_null());
    CHECK(json[1]["harvested_t"] == 0.012);
    std::string html = fields_html(result);
    CHECK(html.find(
              "<td>Long, &quot;Low&quot; &amp; wet</td><td>10.00</td><td>8.00</td><td>2.00</td><td>40.00</td>"
              "<td>5.00</td><td>20.0 (10.0 to 50.0)</td><td>1250 (556 to 5000)</td>") != std::string::npos);
    CHECK(html.find("0.10 ha more were cut beside the boundary") != std::string::npos);
    CHECK(html.find("<th>cost</th>") == std::string::npos);
    result.fields[0].cost = 1234.0;
    html = fields_html(result);
    CHECK(html.find("<th>cost</th>") != std::string::npos);
    CHECK(html.find("<td>1234</td>") != std::string::npos);
    CHECK(fields_html(DayResult{}).empty());
}
