#include "analysis/field_capacity.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using sim::field_capacity_ha_per_h;

namespace {

constexpr double kAcre_ha = 0.40468564224;
constexpr double kMile_km = 1.609344;
constexpr double kFoot_m = 0.3048;

double acres_per_h(double mph, double width_ft, double efficiency) {
    return field_capacity_ha_per_h(mph * kMile_km, width_ft * kFoot_m, efficiency) / kAcre_ha;
}

}  // namespace

TEST_CASE("Field capacity agrees with the published table of machines") {
    // Iowa State University Extension, A3-24 (PM 696), Estimating the field capacity of farm machines;
    // printed to a tenth of an acre.
    const struct {
        double width_ft;
        double mph;
        double efficiency;
        double acres;
    } table[] = {{40, 6, 0.70, 20.4},
                 {60, 12, 0.68, 59.3},
                 {80, 12, 0.68, 79.1},
                 {15, 5, 0.63, 5.7},
                 {45, 5, 0.60, 16.4}};
    for (const auto& row : table) {
        INFO(row.width_ft << " ft at " << row.mph << " mph");
        CHECK(acres_per_h(row.mph, row.width_ft, row.efficiency) == Approx(row.acres).margin(0.05));
    }
}

TEST_CASE("The rule with 8.25 in miles and feet is the rule with 10 in kilometres and metres") {
    // University of Kentucky, AEN-73: acres/h = mph x ft x efficiency / 8.25.
    for (const double mph : {1.0, 3.7, 12.0}) {
        CHECK(acres_per_h(mph, 22.0, 0.8) == Approx(mph * 22.0 * 0.8 / 8.25).epsilon(1e-12));
    }
}

TEST_CASE("A seminar's example of 160 acres agrees") {
    // Prairie Agricultural Machinery Institute, 2016: 40 ft, no time lost: 14.5 ac/h and 11 h at 3 mph, 19.4
    // and 8.2 at 4.
    CHECK(acres_per_h(3.0, 40.0, 1.0) == Approx(14.5).margin(0.05));
    CHECK(160.0 / acres_per_h(3.0, 40.0, 1.0) == Approx(11.0).margin(0.05));
    CHECK(acres_per_h(4.0, 40.0, 1.0) == Approx(19.4).margin(0.05));
    CHECK(160.0 / acres_per_h(4.0, 40.0, 1.0) == Approx(8.2).margin(0.06));
}

TEST_CASE("Five metres at a metre and a half a second are 2.7 hectares an hour") {
    CHECK(field_capacity_ha_per_h(1.5 * 3.6, 5.0, 1.0) == Approx(2.7));
}

TEST_CASE("Field work of a machine is what it did in the field over the time it was there") {
    sim::MachineResult machine;
    machine.parameters.width_m = 3.0F;
    const auto spend = [&machine](WorkState state, double seconds) {
        machine.seconds_by_state[static_cast<std::size_t>(state)] = seconds;
    };
    spend(WorkState::harvesting, 3600.0);
    spend(WorkState::turning, 600.0);
    spend(WorkState::tipping, 600.0);
    spend(WorkState::travelling, 1000.0);
    machine.last.area_m2 = 9000.0F;
    const sim::FieldWork work = sim::field_work(machine);
    // 9,000 m2 over 3 m are 3 km in an hour; an hour of 80 minutes in the field.
    CHECK(work.speed_kmh == Approx(3.0));
    CHECK(work.efficiency == Approx(0.75));
    CHECK(work.capacity_ha_per_h == Approx(0.9 / (4800.0 / 3600.0)));
    CHECK(sim::field_work(sim::MachineResult{}).capacity_ha_per_h == 0.0);
}
