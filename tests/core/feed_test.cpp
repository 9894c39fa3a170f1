#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/bits.hpp"
#include "core/rig.hpp"

using namespace podrate;
using test::bits_of;
using test::Rig;

TEST_CASE("A refused sample changes nothing") {
    Rig rig(1);
    rig.machine.stand(5.0);
    rig.machine.drive(120.0, 0.8);
    const TimeUs now_us = rig.machine.now_us();
    const float nan = std::numeric_limits<float>::quiet_NaN();
    Estimator copy = rig.estimator;
    const std::string before = bits_of(copy.read());
    CHECK(copy.feed(weight_sample(now_us - 1, 50.0F)) == FeedResult::time_back);
    CHECK(copy.feed(speed_sample(now_us - kSecondUs, 2.0F)) == FeedResult::time_back);
    CHECK(copy.feed(weight_sample(now_us + kSecondUs, nan)) == FeedResult::not_finite);
    CHECK(copy.feed(speed_sample(now_us + kSecondUs, 31.0F)) == FeedResult::out_of_range);
    CHECK(copy.feed(position_sample(now_us + kSecondUs, 910000000, 0)) == FeedResult::out_of_range);
    CHECK(copy.feed(tilt_sample(now_us + kSecondUs, 0.0F, nan)) == FeedResult::not_finite);
    CHECK(bits_of(copy.read()) == before);
    // Nor does it leave anything behind that shows later.
    for (int i = 1; i <= 300; ++i) {
        for (Estimator* e : {&copy, &rig.estimator}) {
            e->feed(speed_sample(now_us + i * 100000, 0.8F));
            e->feed(weight_sample(now_us + i * 100000, 150.0F + 0.12F * static_cast<float>(i)));
        }
    }
    CHECK(bits_of(copy.read()) == bits_of(rig.estimator.read()));
}

TEST_CASE("Samples of one moment are all taken") {
    Estimator estimator{Parameters{}};
    CHECK(estimator.feed(weight_sample(5, 10.0F)) == FeedResult::taken);
    CHECK(estimator.feed(weight_sample(5, 11.0F)) == FeedResult::taken);
    CHECK(estimator.feed(speed_sample(5, 1.0F)) == FeedResult::taken);
    CHECK(estimator.feed(tilt_sample(4, 0.0F, 0.0F)) == FeedResult::time_back);
}

TEST_CASE("A first sample out of range does not set the time") {
    Estimator estimator{Parameters{}};
    CHECK(estimator.feed(weight_sample(1000000, 1e6F)) == FeedResult::out_of_range);
    CHECK(estimator.feed(weight_sample(5, 10.0F)) == FeedResult::taken);
}

TEST_CASE("Nothing is known before the first weight") {
    Estimator estimator{Parameters{}};
    CHECK_FALSE(estimator.read().started);
    estimator.feed(speed_sample(1000000, 1.0F));
    estimator.feed(reel_sample(1000000, true));
    const Estimate e = estimator.read();
    CHECK_FALSE(e.started);
    CHECK(e.harvested_kg == Real(0));
    CHECK(e.time_us == 1000000);
    estimator.feed(weight_sample(1100000, 42.0F));
    CHECK(estimator.read().started);
    CHECK(estimator.read().mass_kg == Real(42));
    CHECK(estimator.read().harvested_kg == Real(0));
}

TEST_CASE("Weight alone is enough to run") {
    Estimator estimator{Parameters{}};
    for (int i = 0; i < 6000; ++i) {
        REQUIRE(estimator.feed(weight_sample(i * 100000, 0.1F * static_cast<float>(i))) == FeedResult::taken);
    }
    const Estimate e = estimator.read();
    CHECK(e.area_m2 == Real(0));
    CHECK(static_cast<double>(e.flow_kgps) == Approx(1.0).epsilon(0.05));
    CHECK(static_cast<double>(e.harvested_kg) == Approx(599.9).epsilon(0.01));
    CHECK((e.faults & kSpeedMissing) != 0);
}

TEST_CASE("Four cells give what their sum gives") {
    Estimator one{Parameters{}};
    Estimator four{Parameters{}};
    for (int i = 0; i < 500; ++i) {
        const float quarter_kg = 25.0F + 0.25F * static_cast<float>(i % 7);
        Sample cells = weight_sample(i * 100000, quarter_kg);
        cells.count = 4;
        for (float& value : cells.value) value = quarter_kg;
        four.feed(cells);
        one.feed(weight_sample(i * 100000, 4.0F * quarter_kg));
    }
    CHECK(bits_of(one.read()) == bits_of(four.read()));
}

TEST_CASE("Distance and time to a full hopper follow from yield and speed") {
    Rig rig(2);
    rig.machine.stand(5.0);
    CHECK(rig.read().distance_to_full_m < Real(0));
    CHECK(rig.read().time_to_full_s < Real(0));
    rig.machine.drive(900.0, 0.8);
    const Estimate e = rig.read();
    const double per_metre_kg = rig.truth().flow_kgps / 0.8;
    const double room_kg = 2000.0 - rig.truth().mass_kg;
    CHECK(static_cast<double>(e.distance_to_full_m) == Approx(room_kg / per_metre_kg).epsilon(0.05));
    CHECK(static_cast<double>(e.time_to_full_s) == Approx(room_kg / rig.truth().flow_kgps).epsilon(0.05));
    CHECK(static_cast<double>(e.level_share) == Approx(rig.truth().mass_kg / 2000.0).epsilon(0.01));
}
