// Scales that end below what the hopper holds, silences, and a speed that comes back.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>

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

TEST_CASE("Loads of several sizes beyond the end of the scale are weighed within their doubt") {
    for (const std::uint64_t seed : {11, 12, 13}) {
        Rig rig(seed);
        rig.machine.ends_at_kg = 1500.0;
        rig.machine.stand(5.0);
        std::size_t load = 0;
        double before_kg = 0.0;
        for (const double full_kg : {1800.0, 1600.0, 1900.0, 1650.0, 1850.0, 1700.0}) {
            while (rig.truth().mass_kg < full_kg) rig.machine.drive(5.0, 0.8);
            CHECK(tells(rig, kWeightStuck));
            rig.machine.stand(60.0);
            rig.machine.tip();
            rig.machine.stand(30.0);
            CHECK_FALSE(tells(rig, kWeightStuck));
            const double true_kg = rig.truth().harvested_kg - before_kg;
            before_kg = rig.truth().harvested_kg;
            REQUIRE(rig.loads.size() == ++load);
            const Load& last = rig.loads.back();
            const double off_kg = std::abs(static_cast<double>(last.net_kg) - true_kg);
            INFO("load " << load << ": " << last.net_kg << " +- " << last.net_sd_kg << " kg, truth "
                         << true_kg);
            CHECK(off_kg < 0.05 * true_kg);
            CHECK(off_kg < 3.0 * static_cast<double>(last.net_sd_kg));
            // A fifth of the peas that nobody weighed, and not much more.
            CHECK(static_cast<double>(last.net_sd_kg) < 0.3 * (true_kg - 1500.0) + 15.0);
        }
        const Estimate e = rig.read();
        CHECK(std::abs(static_cast<double>(e.harvested_kg) - rig.truth().harvested_kg) <
              3.0 * static_cast<double>(e.harvested_sd_kg));
    }
}

TEST_CASE("The end of a scale, once found, is known to the loads that only just reach it") {
    for (const double full_kg : {1500.0, 1510.0, 1530.0}) {
        INFO("load up to " << full_kg << " kg");
        Rig rig(15);
        rig.machine.ends_at_kg = 1500.0;
        rig.machine.stand(5.0);
        while (rig.truth().mass_kg < 1750.0) rig.machine.drive(2.0, 0.8);
        rig.machine.stand(60.0);
        rig.machine.tip();
        rig.machine.stand(30.0);
        REQUIRE(rig.loads.size() == 1);
        const double before_kg = rig.truth().harvested_kg;
        while (rig.truth().mass_kg < full_kg) rig.machine.drive(1.0, 0.8);
        rig.machine.stand(60.0);
        CHECK(tells(rig, kWeightStuck));
        rig.machine.tip();
        rig.machine.stand(30.0);
        REQUIRE(rig.loads.size() == 2);
        const Load& load = rig.loads.back();
        const double true_kg = rig.truth().harvested_kg - before_kg;
        INFO(load.net_kg << " +- " << load.net_sd_kg << " kg, truth " << true_kg);
        const double off_kg = std::abs(static_cast<double>(load.net_kg) - true_kg);
        CHECK(off_kg < 15.0);
        CHECK(off_kg < 3.0 * static_cast<double>(load.net_sd_kg));
    }
}

TEST_CASE("A crop that changes beyond the end of the scale is within the doubt") {
    for (const double crop_kgpm2 : {0.4, 0.45, 0.55, 0.6}) {
        INFO("crop of 0.5, then of " << crop_kgpm2 << " kg/m2");
        Rig rig(14);
        rig.machine.ends_at_kg = 1500.0;
        rig.machine.stand(5.0);
        while (rig.truth().mass_kg < 1450.0) rig.machine.drive(5.0, 0.8);
        rig.machine.crop_kgpm2 = crop_kgpm2;
        while (rig.truth().mass_kg < 1850.0) rig.machine.drive(5.0, 0.8);
        rig.machine.stand(60.0);
        rig.machine.tip();
        rig.machine.stand(30.0);
        REQUIRE(rig.loads.size() == 1);
        const Load& load = rig.loads.front();
        const double off_kg = std::abs(static_cast<double>(load.net_kg) - rig.truth().harvested_kg);
        CHECK(off_kg < 3.0 * static_cast<double>(load.net_sd_kg));
        CHECK(off_kg < 0.06 * rig.truth().harvested_kg);
    }
}

TEST_CASE("A scale that stuck once below its end is not held there") {
    for (const double frozen_s : {60.0, 120.0}) {
        Rig rig(4);
        rig.machine.stand(5.0);
        while (rig.truth().mass_kg < 1200.0) rig.machine.drive(1.0, 0.8);
        rig.machine.frozen = true;
        rig.machine.drive(frozen_s, 0.8);
        REQUIRE(tells(rig, kWeightStuck));
        rig.machine.frozen = false;
        rig.machine.drive(60.0, 0.8);
        CHECK_FALSE(tells(rig, kWeightStuck));
        rig.machine.stand(60.0);
        rig.machine.tip();
        rig.machine.stand(30.0);
        REQUIRE(rig.loads.size() == 1);
        CHECK(static_cast<double>(rig.loads.front().net_kg) ==
              Approx(rig.truth().harvested_kg).epsilon(0.02));
        // The next load passes that weight and goes on.
        while (rig.truth().mass_kg < 1800.0) {
            rig.machine.drive(5.0, 0.8);
            REQUIRE(static_cast<double>(rig.read().mass_kg) == Approx(rig.truth().mass_kg).margin(15.0));
            if (rig.truth().mass_kg > 1230.0) REQUIRE_FALSE(tells(rig, kWeightStuck));
        }
        CHECK(rig.read().mass_sd_kg < 15.0F);
    }
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
        CHECK(std::abs(static_cast<double>(with.read().flow_kgps) - with.truth().flow_kgps) <
              3.0 * static_cast<double>(with.read().flow_sd_kgps));
        CHECK(static_cast<double>(with.read().harvested_kg) ==
              Approx(with.truth().harvested_kg).margin(10.0));
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
