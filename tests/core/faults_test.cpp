#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <string>

#include "core/rig.hpp"

using namespace podrate;
using test::Rig;

namespace {

void begin(Rig& rig) {
    rig.machine.stand(5.0);
    rig.machine.drive(300.0, 0.8);
    REQUIRE(rig.read().faults == 0);
}

}  // namespace

TEST_CASE("Each fault has a word of its own") {
    std::set<std::string> words;
    for (int i = 0; i < kFaults; ++i) words.insert(name_of_fault(i));
    CHECK(words.size() == kFaults);
    CHECK(words.count("") == 0);
    CHECK(std::string(name_of_fault(kFaults)).empty());
    CHECK(std::string(name_of_fault(-1)).empty());
}

TEST_CASE("A missing weight is told after 3 s and taken back") {
    Rig rig(1);
    begin(rig);
    const TimeUs from_us = rig.machine.now_us();
    rig.estimator.feed(speed_sample(from_us + 3 * kSecondUs, 0.8F));
    CHECK(rig.read().faults == 0);
    rig.estimator.feed(speed_sample(from_us + 3 * kSecondUs + 1, 0.8F));
    CHECK(rig.read().faults == kWeightMissing);
    rig.estimator.feed(weight_sample(from_us + 4 * kSecondUs, 390.0F));
    CHECK(rig.read().faults == 0);
}

TEST_CASE("A missing speed is told after its hold time and taken back") {
    Rig rig(2);
    begin(rig);
    rig.machine.no_speed = true;
    rig.machine.drive(2.5, 0.8);
    CHECK(rig.read().faults == 0);
    rig.machine.drive(1.5, 0.8);
    CHECK(rig.read().faults == kSpeedMissing);
    rig.machine.no_speed = false;
    rig.machine.drive(0.5, 0.8);
    CHECK(rig.read().faults == 0);
}

TEST_CASE("Without any speed the flow is followed from the weight alone") {
    Rig rig(3);
    begin(rig);
    rig.machine.no_speed = true;
    rig.machine.drive(400.0, 0.8);
    const Estimate e = rig.read();
    // No reference for its size: what matters is that it is near, and that its doubt says how near.
    CHECK(std::abs(static_cast<double>(e.flow_kgps) - rig.truth().flow_kgps) <
          4.0 * static_cast<double>(e.flow_sd_kgps));
    CHECK(static_cast<double>(e.harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.02));
}

TEST_CASE("A weight that repeats to the last digit while the machine moves is told within a minute") {
    Rig rig(4);
    begin(rig);
    rig.machine.frozen = true;
    rig.machine.drive(61.0, 0.8);
    CHECK(rig.read().faults == kWeightStuck);
    rig.machine.frozen = false;
    rig.machine.drive(0.1, 0.8);
    CHECK((rig.read().faults & kWeightStuck) == 0);
}

TEST_CASE("A cell that freezes for a while costs no harvest") {
    for (const double frozen_s : {20.0, 40.0, 100.0, 300.0}) {
        INFO("frozen for " << frozen_s << " s");
        Rig rig(4);
        begin(rig);
        rig.machine.frozen = true;
        rig.machine.drive(frozen_s, 0.8);
        rig.machine.frozen = false;
        rig.machine.drive(180.0, 0.8);
        CHECK(rig.read().faults == 0);
        CHECK(rig.loads.empty());
        CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).margin(15.0));
    }
}

TEST_CASE("A weight that jumps without a tip is told and shifts no harvest") {
    // A small step could still be peas and is judged after seconds; one faster than any peas fall after a
    // minute.
    for (const double jump_kg : {110.0, 300.0, -300.0}) {
        INFO("jump of " << jump_kg << " kg");
        Rig rig(5);
        rig.machine.put_in(400.0);
        begin(rig);
        const double before_kg = rig.truth().harvested_kg;
        rig.machine.zero_kg = jump_kg;
        rig.machine.drive(5.0, 0.8);
        CHECK((rig.read().faults & kWeightJump) != 0);
        rig.machine.drive(115.0, 0.8);
        const Estimate e = rig.read();
        CHECK((e.faults & kWeightJump) == 0);
        CHECK(rig.loads.empty());
        CHECK(static_cast<double>(e.harvested_kg) == Approx(rig.truth().harvested_kg).margin(15.0));
        CHECK(rig.truth().harvested_kg > before_kg + 100.0);
        // The total is in doubt by half the jump.
        CHECK(static_cast<double>(e.harvested_sd_kg) > 0.45 * std::abs(jump_kg));
    }
}

TEST_CASE("A weight that drops out for half a minute costs nothing") {
    Rig rig(7);
    rig.machine.put_in(400.0);
    begin(rig);
    rig.machine.zero_kg = -1000.0;
    rig.machine.drive(30.0, 0.8);
    CHECK((rig.read().faults & kWeightJump) != 0);
    CHECK(static_cast<double>(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).margin(15.0));
    rig.machine.zero_kg = 0.0;
    rig.machine.drive(120.0, 0.8);
    const Estimate e = rig.read();
    CHECK(e.faults == 0);
    CHECK(rig.loads.empty());
    CHECK(static_cast<double>(e.harvested_kg) == Approx(rig.truth().harvested_kg).margin(10.0));
    CHECK(e.harvested_sd_kg < 20.0F);
}

TEST_CASE("Peas that come although speed and reel say no work are told and weighed") {
    Rig rig(8);
    rig.machine.stand(20.0);
    rig.machine.dead_speed = true;
    rig.machine.drive(900.0, 0.8);
    const Estimate e = rig.read();
    CHECK((e.faults & kIntakeUnclear) != 0);
    CHECK(static_cast<double>(e.harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.03));
    CHECK(std::abs(static_cast<double>(e.flow_kgps) - rig.truth().flow_kgps) <
          3.0 * static_cast<double>(e.flow_sd_kgps));
    CHECK(e.flow_sd_kgps < 0.5F);
    rig.machine.stand(60.0);
    const double full_kg = rig.truth().mass_kg;
    rig.machine.tip();
    rig.machine.stand(20.0);
    REQUIRE(rig.loads.size() == 1);
    CHECK(static_cast<double>(rig.loads.front().net_kg) == Approx(full_kg).epsilon(0.02));
}

TEST_CASE("A single wild reading changes next to nothing") {
    for (const float wild_kg : {-1500.0F, -500.0F, 500.0F, 15000.0F}) {
        INFO(wild_kg << " kg");
        Rig rig(6);
        begin(rig);
        const Estimate before = rig.read();
        rig.estimator.feed(weight_sample(rig.machine.now_us() + 50000, before.mass_kg + wild_kg));
        const Estimate after = rig.read();
        CHECK(std::abs(after.mass_kg - before.mass_kg) < 3.0F);
        CHECK(std::abs(after.flow_kgps - before.flow_kgps) < 0.02F);
        rig.machine.drive(60.0, 0.8);
        CHECK(rig.loads.empty());
        CHECK(rig.read().faults == 0);
    }
}
