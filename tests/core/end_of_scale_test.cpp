// Scales that end below what the hopper holds, silences, and a speed that comes back.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

// A load in bouts of five minutes with turns between, tipped.
void work_a_load(Rig& rig, int bouts = 5) {
    for (int i = 0; i < bouts; ++i) {
        rig.machine.drive(270.0, 0.8);
        rig.machine.drive(25.0, 1.1, false);
    }
    rig.machine.stand(60.0);
    rig.machine.tip();
    rig.machine.stand(30.0);
}

bool tells(const Rig& rig, Fault fault) {
    return (rig.read().faults & fault) != 0;
}

}  // namespace

TEST_CASE("A load that goes beyond the end of the scale is still weighed, with more doubt") {
    Rig rig(3);
    rig.machine.ends_at_kg = 1400.0;
    double true_kg = 0.0;
    for (std::size_t load = 1; load <= 4; ++load) {
        const double before_kg = rig.truth().harvested_kg;
        for (int i = 0; i < 5; ++i) {
            rig.machine.drive(270.0, 0.8);
            rig.machine.drive(25.0, 1.1, false);
        }
        CHECK(tells(rig, kWeightStuck));
        CHECK(rig.truth().mass_kg > 1500.0);
        rig.machine.stand(60.0);
        rig.machine.tip();
        rig.machine.stand(30.0);
        true_kg = rig.truth().harvested_kg - before_kg;
        REQUIRE(rig.loads.size() == load);
        const Load& last = rig.loads.back();
        INFO("load " << load << ": " << last.net_kg << " +- " << last.net_sd_kg << " kg, truth " << true_kg);
        CHECK(std::abs(static_cast<double>(last.net_kg) - true_kg) < 0.05 * true_kg);
        CHECK(std::abs(static_cast<double>(last.net_kg) - true_kg) <
              3.0 * static_cast<double>(last.net_sd_kg));
        CHECK(static_cast<double>(last.net_sd_kg) > 10.0);
        CHECK_FALSE(tells(rig, kWeightStuck));
    }
}

TEST_CASE("A scale that stuck once below its end is not held there") {
    Rig rig(4);
    rig.machine.drive(800.0, 0.8);
    rig.machine.frozen = true;
    rig.machine.drive(120.0, 0.8);
    CHECK(tells(rig, kWeightStuck));
    rig.machine.frozen = false;
    rig.machine.drive(60.0, 0.8);
    CHECK_FALSE(tells(rig, kWeightStuck));
    rig.machine.stand(60.0);
    rig.machine.tip();
    rig.machine.stand(30.0);
    // The next load passes that weight and goes beyond.
    for (int i = 0; i < 5; ++i) {
        rig.machine.drive(270.0, 0.8);
        rig.machine.drive(25.0, 1.1, false);
    }
    CHECK(rig.truth().mass_kg > 1400.0);
    CHECK(static_cast<double>(rig.read().mass_kg) == Approx(rig.truth().mass_kg).margin(15.0));
    CHECK_FALSE(tells(rig, kWeightStuck));
}

TEST_CASE("After a silence in the bout the flow is soon as if there had been none, and the silence is told") {
    for (const double silence_s : {20.0, 30.0, 40.0, 50.0}) {
        Rig with(5);
        Rig without(5);
        for (Rig* rig : {&with, &without}) rig->machine.drive(200.0, 0.8);
        with.machine.silent = true;
        for (Rig* rig : {&with, &without}) rig->machine.drive(silence_s, 0.8);
        with.machine.silent = false;
        for (Rig* rig : {&with, &without}) rig->machine.drive(10.0, 0.8);
        INFO("silence of " << silence_s << " s");
        CHECK(tells(with, kWeightMissing));
        CHECK(static_cast<double>(with.read().flow_kgps) ==
              Approx(static_cast<double>(without.read().flow_kgps))
                  .margin(2.0 * static_cast<double>(without.read().flow_sd_kgps)));
        CHECK(static_cast<double>(with.read().area_m2) == Approx(with.truth().area_m2).epsilon(0.01));
        for (Rig* rig : {&with, &without}) rig->machine.drive(40.0, 0.8);
        CHECK_FALSE(tells(with, kWeightMissing));
    }
}

TEST_CASE("A dead speed that comes back is believed once what it saw has passed the drum") {
    Rig rig(6);
    work_a_load(rig, 2);
    rig.machine.drive(100.0, 0.8);
    rig.machine.dead_speed = true;
    rig.machine.drive(200.0, 0.8);
    REQUIRE(tells(rig, kIntakeUnclear));
    rig.machine.dead_speed = false;
    rig.machine.drive(12.0, 0.8);
    CHECK_FALSE(tells(rig, kIntakeUnclear));
    CHECK(static_cast<double>(rig.read().flow_kgps) ==
          Approx(rig.truth().flow_kgps).margin(3.0 * static_cast<double>(rig.read().flow_sd_kgps)));
}
