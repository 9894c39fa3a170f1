#include "synth/machine/drum.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate::sim;

namespace {

constexpr double kStepS = 0.1;

ScenarioDrum drum_with(double dead_s, double lag_s) {
    ScenarioDrum drum;
    drum.dead_time_s = dead_s;
    drum.lag_s = lag_s;
    return drum;
}

CropHere crop_of(double standing_kgpm2) {
    CropHere crop;
    crop.standing_kgpm2 = standing_kgpm2;
    return crop;
}

}  // namespace

TEST_CASE("What goes into the drum comes out or is lost") {
    Drum drum(drum_with(6.2, 7.6), kStepS);
    double in_kg = 0.0;
    double out_kg = 0.0;
    double lost_kg = 0.0;
    for (int i = 0; i < 6000; ++i) {
        // Work that comes and goes, then nothing until the drum has run empty.
        const double area_rate = i < 4000 ? std::max(0.0, 3.3 * (0.8 + std::sin(0.01 * i))) : 0.0;
        const double standing = 0.5 + 0.2 * std::sin(0.003 * i);
        in_kg += area_rate * standing * kStepS;
        out_kg += drum.step(area_rate, crop_of(standing)) * kStepS;
        lost_kg += drum.lost_kgps() * kStepS;
    }
    CHECK(lost_kg > 0.01 * in_kg);
    CHECK(out_kg + lost_kg == Approx(in_kg).epsilon(1e-9));
}

TEST_CASE("Nothing comes out before the dead time is over") {
    for (const double dead_s : {0.5, 3.0, 6.2, 20.0}) {
        Drum drum(drum_with(dead_s, 8.0), kStepS);
        int steps = 0;
        while (drum.step(2.0, crop_of(0.5)) <= 0.0) ++steps;
        INFO("dead time " << dead_s << " s");
        CHECK(steps * kStepS == Approx(dead_s).margin(1e-9));
    }
}

TEST_CASE("After the dead time the flow answers a step as a first-order lag") {
    const double dead_s = 6.0;
    const double lag_s = 8.0;
    Drum drum(drum_with(dead_s, lag_s), kStepS);
    double settled_kgps = 0.0;
    {
        Drum long_run(drum_with(dead_s, lag_s), kStepS);
        for (int i = 0; i < 5000; ++i) settled_kgps = long_run.step(2.64, crop_of(0.5));
        CHECK(settled_kgps == Approx(2.64 * 0.5 - long_run.lost_kgps()).epsilon(1e-9));
    }
    for (int i = 1; i <= 600; ++i) {
        const double flow_kgps = drum.step(2.64, crop_of(0.5));
        const double since_s = i * kStepS - dead_s;
        const double wanted = since_s > 0.0 ? 1.0 - std::exp(-since_s / lag_s) : 0.0;
        REQUIRE(flow_kgps / settled_kgps == Approx(wanted).margin(1e-9));
    }
}

TEST_CASE("The drum loses the stated share at the rated feed") {
    ScenarioDrum told = drum_with(6.0, 8.0);
    told.picking_loss_share = 0.04;
    told.loss_share = 0.05;
    told.rated_feed_kgps = 8.0;
    told.haulm_ratio = 4.0;
    Drum drum(told, kStepS);
    // 8 kg/s of vines and peas at five to one.
    drum.step(3.2, crop_of(0.5));
    CHECK(drum.loss_share() == Approx(1.0 - 0.96 * 0.95).epsilon(1e-12));
    CHECK(drum.lost_kgps() == Approx(1.6 * (1.0 - 0.96 * 0.95)).epsilon(1e-12));
}

TEST_CASE("An idle drum loses nothing") {
    Drum drum(drum_with(6.0, 8.0), kStepS);
    CHECK(drum.step(0.0, crop_of(0.5)) == 0.0);
    CHECK(drum.lost_kgps() == 0.0);
}

TEST_CASE("A full drum is slower, and still gives out all that it took in") {
    ScenarioDrum told = drum_with(6.0, 8.0);
    told.load_share = 0.5;
    const auto first_out_s = [&](double area_rate) {
        Drum drum(told, kStepS);
        // Full first, then a pause, then what is timed.
        for (int i = 0; i < 3000; ++i) drum.step(area_rate, crop_of(0.5));
        const double before = drum.step(area_rate, crop_of(0.5));
        int steps = 0;
        while (drum.step(area_rate, crop_of(0.6)) < before * 1.0005) ++steps;
        return steps * kStepS;
    };
    // 5 kg/s and 10 kg/s of the rated 8.
    CHECK(first_out_s(4.0) - first_out_s(2.0) > 1.0);
    Drum drum(told, kStepS);
    double in_kg = 0.0;
    double out_kg = 0.0;
    for (int i = 0; i < 9000; ++i) {
        const double area_rate = i < 6000 ? 2.0 + 1.9 * std::sin(0.004 * i) : 0.0;
        in_kg += area_rate * 0.5 * kStepS;
        out_kg += (drum.step(area_rate, crop_of(0.5)) + drum.lost_kgps()) * kStepS;
    }
    CHECK(out_kg == Approx(in_kg).epsilon(1e-9));
}

TEST_CASE("The reel leaves its share of a lodged crop") {
    Drum drum(drum_with(6.0, 8.0), kStepS);
    CropHere crop = crop_of(0.5);
    drum.step(2.0, crop);
    const double upright = 1.0 - drum.loss_share();
    crop.lodged_loss_share = 0.2;
    drum.step(2.0, crop);
    CHECK(1.0 - drum.loss_share() == Approx(0.8 * upright).epsilon(1e-12));
}
