// Gaps in the data, with and without something happening in them.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

void fill(Rig& rig, double for_s = 1000.0) {
    rig.machine.stand(5.0);
    rig.machine.drive(for_s, 0.8);
    rig.machine.stand(40.0);
}

}  // namespace

TEST_CASE("What is harvested while nothing is logged counts once the weight is back") {
    Rig rig(1);
    rig.machine.stand(5.0);
    rig.machine.drive(300.0, 0.8);
    rig.machine.silent = true;
    rig.machine.drive(240.0, 0.8);
    rig.machine.silent = false;
    rig.machine.drive(300.0, 0.8);
    rig.machine.stand(60.0);
    CHECK(rig.loads.empty());
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("A tip in an outage is a load") {
    Rig rig(2);
    fill(rig);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.silent = true;
    rig.machine.tip();
    rig.machine.stand(120.0);
    rig.machine.silent = false;
    rig.machine.stand(30.0);
    REQUIRE(rig.loads.size() == 1);
    const Load& load = rig.loads.front();
    CHECK(std::abs(static_cast<double>(load.net_kg) - full_kg) < 4.0 * static_cast<double>(load.net_sd_kg));
    CHECK(static_cast<double>(load.net_kg) == Approx(full_kg).epsilon(0.01));
    rig.machine.drive(300.0, 0.8);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("A tip in an outage with harvest on both sides of it is a load with a wider error") {
    Rig rig(9);
    rig.machine.stand(5.0);
    rig.machine.drive(900.0, 0.8);
    rig.machine.silent = true;
    rig.machine.drive(90.0, 0.8);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip();
    rig.machine.drive(60.0, 0.8);
    rig.machine.silent = false;
    rig.machine.drive(300.0, 0.8);
    REQUIRE(rig.loads.size() == 1);
    const Load& load = rig.loads.front();
    INFO("net " << load.net_kg << " kg, truth " << full_kg << " kg, stated sd " << load.net_sd_kg << " kg");
    CHECK(load.net_sd_kg > 8.0F);
    CHECK(std::abs(static_cast<double>(load.net_kg) - full_kg) < 4.0 * static_cast<double>(load.net_sd_kg));
    CHECK(std::abs(static_cast<double>(rig.read().harvested_kg) - rig.truth().harvested_kg) <
          4.0 * static_cast<double>(rig.read().harvested_sd_kg));
}

TEST_CASE("An outage that begins while peas pour out loses no load") {
    Rig rig(3);
    fill(rig);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip(15.0, full_kg / 2);
    rig.machine.silent = true;
    rig.machine.tip(15.0, 0.0);
    rig.machine.stand(120.0);
    rig.machine.silent = false;
    rig.machine.stand(30.0);
    rig.machine.drive(300.0, 0.8);
    REQUIRE(rig.loads.size() == 1);
    CHECK(static_cast<double>(rig.loads.front().net_kg) == Approx(full_kg).epsilon(0.02));
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.02));
}

TEST_CASE("An outage that begins just after the last pea has left loses no load") {
    Rig rig(4);
    fill(rig);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip();
    rig.machine.stand(3.0);
    REQUIRE(rig.loads.empty());  // the rest is not weighed yet
    rig.machine.silent = true;
    rig.machine.stand(120.0);
    rig.machine.silent = false;
    rig.machine.stand(30.0);
    REQUIRE(rig.loads.size() == 1);
    CHECK(static_cast<double>(rig.loads.front().net_kg) == Approx(full_kg).epsilon(0.02));
    rig.machine.drive(600.0, 0.8);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.02));
}

TEST_CASE("A tip in a gap shorter than an outage is a load too") {
    for (const double gap_s : {35.0, 45.0, 55.0}) {
        INFO("gap of " << gap_s << " s");
        Rig rig(5);
        fill(rig);
        const double full_kg = rig.truth().mass_kg;
        rig.machine.silent = true;
        rig.machine.tip();
        rig.machine.stand(gap_s - 30.0);
        rig.machine.silent = false;
        rig.machine.stand(30.0);
        rig.machine.drive(300.0, 0.8);
        CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.02));
        REQUIRE(rig.loads.size() == 1);
        CHECK(static_cast<double>(rig.loads.front().net_kg) == Approx(full_kg).epsilon(0.02));
    }
}

TEST_CASE("A gap of half a minute while harvesting costs nothing") {
    Rig rig(6);
    rig.machine.stand(5.0);
    rig.machine.drive(400.0, 0.8);
    rig.machine.silent = true;
    rig.machine.drive(30.0, 0.8);
    rig.machine.silent = false;
    rig.machine.drive(400.0, 0.8);
    rig.machine.stand(60.0);
    CHECK(rig.loads.empty());
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.01));
}

TEST_CASE("A weight that stays missing does not disturb the rest") {
    Rig rig(7);
    rig.machine.stand(5.0);
    rig.machine.drive(300.0, 0.8);
    const Estimate before = rig.read();
    const TimeUs from_us = rig.machine.now_us();
    for (int i = 1; i <= 1200; ++i) rig.estimator.feed(speed_sample(from_us + i * kSecondUs / 2, 0.8F));
    const Estimate after = rig.read();
    CHECK((after.faults & kWeightMissing) != 0);
    CHECK(after.area_m2 - before.area_m2 == Approx(0.8 * 3.3 * 600.0).epsilon(0.001));
    CHECK(std::isfinite(after.mass_kg));
}

TEST_CASE("A stuck weight over a gap of years does not hang") {
    Rig rig(8);
    rig.machine.stand(5.0);
    rig.machine.drive(60.0, 0.8);
    TimeUs now_us = rig.machine.now_us();
    for (int i = 0; i < 700; ++i) {
        now_us += 100000;
        rig.estimator.feed(speed_sample(now_us, 0.8F));
        rig.estimator.feed(weight_sample(now_us, 77.0F));
    }
    REQUIRE((rig.read().faults & kWeightStuck) != 0);
    // Twenty thousand years: a step for each second would take hours.
    now_us += TimeUs{20000} * 365 * 86400 * kSecondUs;
    rig.estimator.feed(weight_sample(now_us, 77.0F));
    CHECK(rig.read().time_us == now_us);
    CHECK(std::isfinite(rig.read().mass_kg));
    CHECK(std::isfinite(rig.read().flow_kgps));
}
