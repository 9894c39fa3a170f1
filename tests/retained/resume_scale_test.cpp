// Scales and cells that were in trouble when the power was cut.
#include <catch2/catch.hpp>
#include <cmath>

#include "retained/cut.hpp"

using namespace podrate;
using test::cut;
using test::kg;
using test::Rig;

TEST_CASE("A scale that says nothing before and after the cut closes no load") {
    Rig rig(18);
    rig.machine.stand(5.0);
    rig.machine.drive(500.0, 0.8);
    rig.machine.frozen = true;
    rig.machine.drive(200.0, 0.8);
    REQUIRE((rig.read().faults & kWeightStuck) != 0);
    const double before_kg = kg(rig.read().harvested_kg);
    cut(rig, [&] { rig.machine.stand(5.0); });
    rig.machine.stand(10.0);
    CHECK(rig.loads.empty());
    CHECK(kg(rig.read().harvested_kg) >= before_kg);
    CHECK(kg(rig.read().harvested_kg) < before_kg + 15.0);  // what the drum held
    rig.machine.drive(100.0, 0.8);
    CHECK(rig.loads.empty());
    CHECK((rig.read().faults & kWeightStuck) != 0);
    CHECK(kg(rig.read().harvested_kg) > before_kg);
    CHECK(kg(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.05));
}

TEST_CASE("A scale at its end before and after the cut closes no load") {
    Rig rig(19);
    rig.machine.ends_at_kg = 1100.0;
    rig.machine.stand(5.0);
    rig.machine.drive(1300.0, 0.8);
    REQUIRE(rig.truth().mass_kg > 1300.0);
    cut(rig, [&] { rig.machine.stand(5.0); });
    rig.machine.stand(20.0);
    CHECK(rig.loads.empty());
    CHECK(kg(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).epsilon(0.02));
}

TEST_CASE("An indicator that starts with a few wild readings closes no load") {
    Rig rig(20);
    rig.machine.stand(5.0);
    rig.machine.drive(600.0, 0.8);
    rig.machine.stand(40.0);
    cut(rig, [&] { rig.machine.stand(5.0); });
    const TimeUs now_us = rig.machine.now_us();
    for (int i = 0; i < 15; ++i)
        rig.estimator.feed(weight_sample(now_us + i * 100000, i % 2 == 0 ? 0.0F : 900.0F));
    rig.machine.silent = true;
    rig.machine.stand(1.5);
    rig.machine.silent = false;
    rig.machine.stand(20.0);
    CHECK(rig.loads.empty());
    CHECK(kg(rig.read().harvested_kg) == Approx(rig.truth().harvested_kg).margin(4.0));
}

TEST_CASE("A cell that is dead before and after the cut is stood in for") {
    Estimator estimator{Parameters{}};
    TimeUs now_us = TimeUs{1751032800} * kSecondUs;
    std::uint32_t noise = 5;
    const auto weigh = [&](double sum_kg, bool dead) {
        Sample sample = weight_sample(now_us, 0.0F);
        sample.count = 4;
        for (float& cell : sample.value) {
            noise = noise * 1664525U + 1013904223U;
            cell = static_cast<float>(sum_kg / 4.0 + static_cast<double>(noise >> 16U) / 32768.0 - 1.0);
        }
        if (dead) sample.value[2] = 200.0F;
        REQUIRE(estimator.feed(sample) == FeedResult::taken);
    };
    double mass_kg = 0.0;
    const auto work = [&](int tenths, bool dead) {
        for (int i = 0; i < tenths; ++i) {
            now_us += 100000;
            estimator.feed(speed_sample(now_us, 0.8F));
            if (i % 10 == 0) estimator.feed(reel_sample(now_us, true));
            mass_kg += 0.11;
            weigh(mass_kg, dead);
        }
    };
    work(7300, false);
    work(8000, true);
    REQUIRE((estimator.read().faults & kWeightStuck) != 0);
    REQUIRE(kg(estimator.read().mass_kg) == Approx(mass_kg).margin(25.0));
    REQUIRE(mass_kg / 4.0 - 200.0 >
            kg(Parameters{}.tip_least_kg));  // as read, peas enough for a load are missing
    RetainedState state;
    REQUIRE(estimator.save(state));
    estimator = Estimator{Parameters{}};
    now_us += 3 * kSecondUs;
    REQUIRE(estimator.resume(state, now_us) == ResumeResult::resumed);
    work(600, true);
    CHECK(estimator.load_count() == 0);
    CHECK((estimator.read().faults & kWeightStuck) != 0);
    CHECK(kg(estimator.read().mass_kg) == Approx(mass_kg).margin(25.0));
    CHECK(kg(estimator.read().harvested_kg) == Approx(mass_kg).margin(25.0));
}

TEST_CASE("Gravity is that of the place before a position comes") {
    Rig rig(23);
    rig.machine.stand(5.0);
    rig.estimator.feed(position_sample(rig.machine.now_us(), 100000000, 0));  // 10 degrees north
    rig.machine.drive(900.0, 0.8);
    rig.machine.stand(60.0);
    const double before_kg = kg(rig.read().harvested_kg);
    REQUIRE(before_kg > 900.0);
    cut(rig, [&] { rig.machine.stand(3.0); });
    rig.machine.stand(20.0);
    // Gravity at the place of calibration is 0.4 % more.
    CHECK(kg(rig.read().harvested_kg) == Approx(before_kg).margin(1.0));
}
