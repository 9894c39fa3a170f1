#include "synth/drum.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate::sim;

namespace {

constexpr double kStepS = 0.1;

ScenarioMachine machine_with(double dead_s, double lag_s) {
    ScenarioMachine machine;
    machine.id = "viner_1";
    machine.drum_dead_time_s = dead_s;
    machine.drum_lag_s = lag_s;
    return machine;
}

}  // namespace

TEST_CASE("What goes into the drum comes out or is lost") {
    Drum drum(machine_with(6.2, 7.6), kStepS);
    double in_kg = 0.0;
    double out_kg = 0.0;
    double lost_kg = 0.0;
    for (int i = 0; i < 6000; ++i) {
        // Work that comes and goes, then nothing until the drum has run empty.
        const double area_rate = i < 4000 ? std::max(0.0, 3.3 * (0.8 + std::sin(0.01 * i))) : 0.0;
        const double standing = 0.5 + 0.2 * std::sin(0.003 * i);
        in_kg += area_rate * standing * kStepS;
        out_kg += drum.step(area_rate, standing) * kStepS;
        lost_kg += drum.lost_kgps() * kStepS;
    }
    CHECK(lost_kg > 0.01 * in_kg);
    CHECK(out_kg + lost_kg == Approx(in_kg).epsilon(1e-9));
}

TEST_CASE("Nothing comes out before the dead time is over") {
    for (const double dead_s : {0.5, 3.0, 6.2, 20.0}) {
        Drum drum(machine_with(dead_s, 8.0), kStepS);
        int steps = 0;
        while (drum.step(2.0, 0.5) <= 0.0) ++steps;
        INFO("dead time " << dead_s << " s");
        CHECK(steps * kStepS == Approx(dead_s).margin(1e-9));
    }
}

TEST_CASE("After the dead time the flow answers a step as a first-order lag") {
    const double dead_s = 6.0;
    const double lag_s = 8.0;
    Drum drum(machine_with(dead_s, lag_s), kStepS);
    double settled_kgps = 0.0;
    {
        Drum long_run(machine_with(dead_s, lag_s), kStepS);
        for (int i = 0; i < 5000; ++i) settled_kgps = long_run.step(2.64, 0.5);
        CHECK(settled_kgps == Approx(2.64 * 0.5 - long_run.lost_kgps()).epsilon(1e-9));
    }
    for (int i = 1; i <= 600; ++i) {
        const double flow_kgps = drum.step(2.64, 0.5);
        const double since_s = i * kStepS - dead_s;
        const double wanted = since_s > 0.0 ? 1.0 - std::exp(-since_s / lag_s) : 0.0;
        REQUIRE(flow_kgps / settled_kgps == Approx(wanted).margin(1e-9));
    }
}

TEST_CASE("The drum loses the stated share at the rated feed") {
    ScenarioMachine machine = machine_with(6.0, 8.0);
    machine.picking_loss_share = 0.04;
    machine.drum_loss_share = 0.05;
    machine.rated_feed_kgps = 8.0;
    machine.haulm_ratio = 4.0;
    Drum drum(machine, kStepS);
    // 8 kg/s of vines and peas at five to one.
    drum.step(3.2, 0.5);
    CHECK(drum.loss_share() == Approx(1.0 - 0.96 * 0.95).epsilon(1e-12));
    CHECK(drum.lost_kgps() == Approx(1.6 * (1.0 - 0.96 * 0.95)).epsilon(1e-12));
}

TEST_CASE("An idle drum loses nothing") {
    Drum drum(machine_with(6.0, 8.0), kStepS);
    CHECK(drum.step(0.0, 0.5) == 0.0);
    CHECK(drum.lost_kgps() == 0.0);
}
