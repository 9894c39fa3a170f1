#include "podrate/weight/conditioning.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "podrate/math/elementary.hpp"
#include "podrate/weight/gravity.hpp"

using namespace podrate;

namespace {

Real sin2_of(double lat_deg) {
    const double s = math::sin_cos(math::deg_to_rad(lat_deg)).sin;
    return static_cast<Real>(s * s);
}

// What the conditioner makes of 1000 kg on the cells.
double content_of_1000(WeightConditioner& weight) {
    return static_cast<double>(weight.condition(weight_sample(0, 1000.0F)));
}

}  // namespace

TEST_CASE("Tilt is corrected by what the cells show too little") {
    // Uncorrected errors: 2 deg -0.061 %, 5 deg -0.381 %, 10 deg -1.519 %; 1 - cos, worked out apart.
    const struct {
        float deg;
        double error;
    } tilts[] = {{2.0F, -0.00061}, {5.0F, -0.00381}, {10.0F, -0.01519}};
    for (const auto& tilt : tilts) {
        for (const float sign : {1.0F, -1.0F}) {
            for (const bool pitch : {true, false}) {
                WeightConditioner weight{Parameters{}};
                weight.set_tilt(pitch ? tilt_sample(0, sign * tilt.deg, 0.0F)
                                      : tilt_sample(0, 0.0F, sign * tilt.deg));
                CHECK(1000.0 / content_of_1000(weight) - 1.0 == Approx(tilt.error).margin(0.000005));
            }
        }
    }
}

TEST_CASE("Pitch and roll together multiply") {
    WeightConditioner pitch{Parameters{}};
    WeightConditioner roll{Parameters{}};
    WeightConditioner both{Parameters{}};
    pitch.set_tilt(tilt_sample(0, 7.0F, 0.0F));
    roll.set_tilt(tilt_sample(0, 0.0F, 4.0F));
    both.set_tilt(tilt_sample(0, 7.0F, 4.0F));
    CHECK(content_of_1000(both) * 1000.0 ==
          Approx(content_of_1000(pitch) * content_of_1000(roll)).epsilon(1e-6));
}

TEST_CASE("Normal gravity agrees with GeographicLib") {
    // GeographicLib 2.1.2, NormalGravity::WGS84, surface gravity.
    const struct {
        double lat_deg;
        double mps2;
    } places[] = {
        {0.0, 9.780325335904}, {45.0, 9.806197769377}, {52.5, 9.812912700876}, {90.0, 9.832184937863}};
    for (const auto& place : places) {
        INFO(place.lat_deg << " deg");
        const double sine = math::sin_cos(math::deg_to_rad(place.lat_deg)).sin;
        const double sin2 = sine * sine;
        CHECK(normal_gravity_mps2(sin2) == Approx(place.mps2).epsilon(1e-11));
        // Two units in the last place of a float near 9.8.
        CHECK(static_cast<double>(normal_gravity_mps2(sin2_of(place.lat_deg))) ==
              Approx(place.mps2).margin(2e-6));
    }
}

TEST_CASE("Cells calibrated at 45 degrees read 0.0905 per cent too much at 55") {
    Parameters parameters;
    parameters.calibration_lat_deg = 45.0F;
    WeightConditioner weight(parameters);
    weight.set_latitude(55.0F);
    CHECK(1000.0 / content_of_1000(weight) - 1.0 == Approx(0.000905).margin(0.000001));
}

TEST_CASE("At the place of calibration nothing is changed") {
    WeightConditioner weight{Parameters{}};
    weight.set_latitude(52.5F);
    CHECK(content_of_1000(weight) == Approx(1000.0).epsilon(1e-7));
    weight.set_latitude(-52.5F);
    CHECK(content_of_1000(weight) == Approx(1000.0).epsilon(1e-7));
}

TEST_CASE("The zero is taken by how much it is doubted") {
    Parameters parameters;
    parameters.zero_start_sd_kg = 10.0F;
    parameters.tip_residue_kg = 4.0F;
    WeightConditioner weight(parameters);
    CHECK(static_cast<double>(weight.zero_variance_kg2(0)) == Approx(100.0));
    // What stays is half-normal with mean 4 kg: its variance is mean^2 (pi/2 - 1). 20 kg shown: 16 more than
    // expected.
    const double residue_variance = 16.0 * (3.14159265358979 / 2.0 - 1.0);
    const double gain = 100.0 / (100.0 + residue_variance + 16.0);
    const Real shift_kg = weight.take_zero(0, 20.0F, 16.0F);
    CHECK(static_cast<double>(shift_kg) == Approx(-16.0 * gain).epsilon(1e-3));
    CHECK(static_cast<double>(weight.condition(weight_sample(0, 20.0F))) ==
          Approx(20.0 - 16.0 * gain).epsilon(1e-3));
    CHECK(static_cast<double>(weight.zero_variance_kg2(0)) == Approx(100.0 * (1.0 - gain)).epsilon(1e-3));
}

TEST_CASE("Doubt about the zero grows with time since it was taken") {
    Parameters parameters;
    parameters.zero_drift_kg = 4.0F;
    WeightConditioner weight(parameters);
    weight.take_zero(0, 0.0F, 1.0F);
    const auto at_once = static_cast<double>(weight.zero_variance_kg2(0));
    CHECK(static_cast<double>(weight.zero_variance_kg2(2 * 3600 * kSecondUs)) == Approx(at_once + 32.0));
}

TEST_CASE("Zeros taken again and again end at the true one") {
    const Parameters parameters;
    WeightConditioner weight(parameters);
    for (int tip = 1; tip <= 12; ++tip) {
        const TimeUs time_us = tip * 900 * kSecondUs;
        const Real shown_kg = weight.condition(weight_sample(time_us, 25.0F));
        weight.take_zero(time_us, shown_kg, 1.0F);
    }
    // What still shows is what is thought to stay in a tipped hopper.
    CHECK(weight.condition(weight_sample(0, 25.0F)) == Approx(parameters.tip_residue_kg).margin(0.5));
}

namespace {

// A cell that shows 500 kg at 10 Hz for so long.
bool stuck_after(double for_s, bool moving, float flow_kgps, double every_s = 0.1) {
    WeightConditioner weight{Parameters{}};
    for (int i = 0; i * every_s <= for_s + 1e-9; ++i) {
        weight.judge_stuck(weight_sample(static_cast<TimeUs>(i * every_s * 1e6), 500.0F), moving, flow_kgps);
    }
    return weight.stuck();
}

}  // namespace

TEST_CASE("A reading that repeats is stuck once 25 kg of peas should have shown") {
    CHECK_FALSE(stuck_after(24.9, true, 1.0F));
    CHECK(stuck_after(25.1, true, 1.0F));
    CHECK_FALSE(stuck_after(12.4, true, 2.0F));
    CHECK(stuck_after(12.6, true, 2.0F));
}

TEST_CASE("A reading that repeats is never stuck within five seconds and always after a minute of motion") {
    CHECK_FALSE(stuck_after(5.0, true, 1000.0F));
    CHECK(stuck_after(5.1, true, 1000.0F));
    CHECK_FALSE(stuck_after(60.0, true, 0.0F));
    CHECK(stuck_after(60.1, true, 0.0F));
}

TEST_CASE("Fewer than ten repeats are not stuck and a standing machine never is") {
    CHECK_FALSE(stuck_after(36.0, true, 5.0F, 4.0));
    CHECK(stuck_after(40.0, true, 5.0F, 4.0));
    CHECK_FALSE(stuck_after(600.0, false, 0.0F));
}

TEST_CASE("A stuck reading is stuck until it changes") {
    WeightConditioner weight{Parameters{}};
    TimeUs time_us = 0;
    for (int i = 0; i < 300; ++i) weight.judge_stuck(weight_sample(time_us += 100000, 500.0F), true, 2.0F);
    REQUIRE(weight.stuck());
    weight.judge_stuck(weight_sample(time_us += 100000, 500.0F), false, 0.0F);
    CHECK(weight.stuck());
    weight.judge_stuck(weight_sample(time_us += 100000, 500.5F), true, 2.0F);
    CHECK_FALSE(weight.stuck());
}
