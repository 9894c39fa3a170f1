#include "podrate/filter/flow_filter.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>

using namespace podrate;

namespace {

using State = FlowFilter::State;

Intake swept(double dt_s, double speed_mps, double width_m = 3.3) {
    Intake intake;
    intake.dt_s = static_cast<Real>(dt_s);
    intake.distance_m = static_cast<Real>(speed_mps * dt_s);
    intake.area_m2 = static_cast<Real>(speed_mps * dt_s * width_m);
    return intake;
}

double variance(const FlowFilter& filter, State state) {
    return static_cast<double>(filter.belief().covariance(state, state));
}

double mean(const FlowFilter& filter, State state) {
    return static_cast<double>(filter.belief().mean(state));
}

// Mass and flow behind a drum of 8 s, crop of `crop_kgpm2`, and noise of 6 kg on the weight.
struct Plant {
    double mass_kg = 0.0;
    double flow_kgps = 0.0;
    std::uint64_t state = 3;

    double passed_share(double crop_kgps) const {
        const double hazard = std::exp(std::log(-std::log(1.0 - 0.035)) + (5.0 * crop_kgps - 8.0) / 3.5);
        return 0.96 * std::exp(-hazard);
    }
    double step(double dt_s, double speed_mps, double crop_kgpm2) {
        const double crop_kgps = 3.3 * speed_mps * crop_kgpm2;
        const double gone = 1.0 - std::exp(-dt_s / 8.0);
        const double arriving = crop_kgps * passed_share(crop_kgps);
        mass_kg += arriving * dt_s + (flow_kgps - arriving) * 8.0 * gone;
        flow_kgps += (arriving - flow_kgps) * gone;
        double sum = -6.0;
        for (int i = 0; i < 12; ++i) {
            state = state * 6364136223846793005ULL + 1442695040888963407ULL;
            sum += static_cast<double>(state >> 11) * 0x1.0p-53;
        }
        return mass_kg + 6.0 * sum;
    }
};

// Ten minutes of steady work; both come back as they stand then.
void work(FlowFilter& filter, Plant& plant, double for_s, double speed_mps, double crop_kgpm2) {
    for (double t = 0.0; t < for_s; t += 0.1) {
        const double reading_kg = plant.step(0.1, speed_mps, crop_kgpm2);
        filter.predict(swept(0.1, speed_mps));
        filter.update(static_cast<Real>(reading_kg), Real(36), Real(36));
    }
}

}  // namespace

TEST_CASE("Flow and yield come to the plant's from a wrong start") {
    for (const double crop_kgpm2 : {0.3, 0.5, 0.8}) {
        INFO("crop " << crop_kgpm2 << " kg/m2");
        FlowFilter filter{Parameters{}};
        Plant plant;
        filter.start(Real(0), Real(36));
        work(filter, plant, 900.0, 0.7, crop_kgpm2);
        CHECK(mean(filter, State::flow) == Approx(plant.flow_kgps).epsilon(0.05));
        CHECK(mean(filter, State::mass) == Approx(plant.mass_kg).margin(6.0));
        const double yield_kgpm2 = plant.flow_kgps / (3.3 * 0.7);
        CHECK(static_cast<double>(filter.yield_kgpm2(Real(3.3 * 0.7))) == Approx(yield_kgpm2).epsilon(0.05));
        // The stated doubt is honest: four of it hold the truth.
        CHECK(std::abs(mean(filter, State::flow) - plant.flow_kgps) <
              4.0 * std::sqrt(variance(filter, State::flow)));
    }
}

TEST_CASE("A change of speed shows in the flow at once") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 900.0, 0.7, 0.5);
    // Twenty seconds at nearly double speed: differencing the weight could not know yet.
    work(filter, plant, 20.0, 1.2, 0.5);
    CHECK(mean(filter, State::flow) == Approx(plant.flow_kgps).epsilon(0.05));
}

TEST_CASE("Standing still leaves the doubt about the crop as it was") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 600.0, 0.7, 0.5);
    const double before = variance(filter, State::ln_crop);
    const double crop = mean(filter, State::ln_crop);
    const double ahead = variance(filter, State::ln_mean);
    for (int i = 0; i < 36000; ++i) filter.predict(swept(0.1, 0.0));
    CHECK(variance(filter, State::ln_crop) == before);
    CHECK(variance(filter, State::ln_mean) == ahead);
    CHECK(mean(filter, State::ln_crop) == crop);
}

TEST_CASE("Driving on makes the crop here as uncertain as anywhere and no more") {
    Parameters parameters;
    parameters.crop_mean_drift = Real(0);
    FlowFilter filter(parameters);
    Plant plant;
    work(filter, plant, 600.0, 0.7, 0.5);
    const double known = variance(filter, State::ln_crop);
    for (int i = 0; i < 10000; ++i) filter.predict(swept(0.1, 1.0));
    // Mean-reverting: the doubt ends at the mean's own plus the spread, however far one drives.
    const auto spread = static_cast<double>(filter.crop_cv() * filter.crop_cv());
    CHECK(variance(filter, State::ln_crop) > known);
    CHECK(variance(filter, State::ln_crop) ==
          Approx(variance(filter, State::ln_mean) + spread).epsilon(0.01));
}

TEST_CASE("No peas appear or vanish in a prediction") {
    FlowFilter filter{Parameters{}};
    filter.start(Real(100), Real(1));
    const double lag_s = 8.0;
    double expected_kg = 100.0;
    for (int i = 0; i < 2000; ++i) {
        const double speed_mps = 0.5 + 0.4 * std::sin(0.01 * i);
        const Intake intake = swept(0.25, speed_mps);
        const auto area_rate_m2ps = static_cast<Real>(3.3 * speed_mps);
        const Real taken_in_kgps = filter.loss_belief(area_rate_m2ps).feed_kgps / filter.feed_per_pea();
        // Standing: what the reel leaves never reaches the drum.
        const double crop_kg =
            0.25 * static_cast<double>(taken_in_kgps) / (1.0 - static_cast<double>(filter.picking_share()));
        const auto lost_kg = static_cast<double>(filter.predict(intake).lost_kg);
        REQUIRE(lost_kg > 0.0);
        REQUIRE(lost_kg < crop_kg);
        expected_kg += crop_kg - lost_kg;
        // In the hopper and in the drum together.
        REQUIRE(mean(filter, State::mass) + lag_s * mean(filter, State::flow) ==
                Approx(expected_kg).epsilon(1e-4));
    }
}

TEST_CASE("The split of a step does not matter where nothing is cut") {
    FlowFilter one{Parameters{}};
    FlowFilter many{Parameters{}};
    Plant plant;
    work(one, plant, 300.0, 0.7, 0.5);
    many = one;
    one.predict(swept(5.0, 0.0));
    for (int i = 0; i < 50; ++i) many.predict(swept(0.1, 0.0));
    CHECK(mean(one, State::mass) == Approx(mean(many, State::mass)).epsilon(1e-5));
    CHECK(mean(one, State::flow) == Approx(mean(many, State::flow)).epsilon(1e-4));
}

TEST_CASE("An outlier of 500 kg pulls no harder than a reading at the gate") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 600.0, 0.7, 0.5);
    const Innovation<Real> here = innovation_of(filter.belief(), State::mass, Real(0), Real(36));
    const auto gate_kg =
        static_cast<double>(Parameters{}.weight_gate_sd) * std::sqrt(static_cast<double>(here.variance));
    const double predicted_kg = mean(filter, State::mass);
    const auto moved = [&](double by_kg) {
        FlowFilter copy = filter;
        copy.update(static_cast<Real>(predicted_kg + by_kg), Real(36), Real(36));
        return mean(copy, State::flow) - mean(filter, State::flow);
    };
    const double at_gate = moved(gate_kg);
    CHECK(at_gate > 0.0);
    CHECK(moved(500.0) == Approx(at_gate).epsilon(0.01));
    CHECK(moved(5000.0) == Approx(at_gate).epsilon(0.01));
    CHECK(moved(-500.0) == Approx(-at_gate).epsilon(0.01));
    // Without the gate it would pull as many times harder as it lies farther out.
    CHECK(moved(gate_kg / 2) == Approx(at_gate / 2).epsilon(0.01));
}

TEST_CASE("The gate is as wide as single readings spread") {
    FlowFilter narrow{Parameters{}};
    Plant plant;
    work(narrow, plant, 600.0, 0.7, 0.5);
    FlowFilter wide = narrow;
    const FlowFilter before = narrow;
    // 40 kg off: far beyond three of 6 kg, well within three of 20 kg.
    const auto reading_kg = static_cast<Real>(mean(before, State::mass) + 40.0);
    narrow.update(reading_kg, Real(36), Real(36));
    wide.update(reading_kg, Real(36), Real(400));
    const double full = mean(wide, State::flow) - mean(before, State::flow);
    const double held = mean(narrow, State::flow) - mean(before, State::flow);
    CHECK(held > 0.0);
    CHECK(held < 0.6 * full);
    // Inside the gate it is the plain update, whose gain rests on the noise alone.
    FlowFilter::Belief plain = before.belief();
    update_scalar(plain, State::mass, reading_kg, Real(36));
    CHECK((plain.mean == wide.belief().mean));
}

TEST_CASE("A mass told anew is tied to nothing") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 300.0, 0.7, 0.5);
    const double flow = mean(filter, State::flow);
    const double flow_variance = variance(filter, State::flow);
    filter.retell_mass(Real(12), Real(4));
    CHECK(mean(filter, State::mass) == 12.0);
    CHECK(variance(filter, State::mass) == 4.0);
    for (const State other : {State::flow, State::ln_crop, State::ln_mean, State::dead_time, State::ln_lag}) {
        CHECK(filter.belief().covariance(State::mass, other) == Real(0));
        CHECK(filter.belief().covariance(other, State::mass) == Real(0));
    }
    CHECK(mean(filter, State::flow) == flow);
    CHECK(variance(filter, State::flow) == flow_variance);
}

TEST_CASE("With the speed unknown the flow wanders and its doubt grows") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 300.0, 0.7, 0.5);
    const double mass_kg = mean(filter, State::mass);
    const double flow = mean(filter, State::flow);
    const double flow_variance = variance(filter, State::flow);
    Intake blind = swept(1.0, 0.0);
    blind.known = false;
    CHECK(filter.predict(blind).lost_kg == Real(0));
    CHECK(mean(filter, State::mass) == Approx(mass_kg + flow));
    CHECK(mean(filter, State::flow) == flow);
    // blind_flow_noise_kgps 0.15 by default.
    CHECK(variance(filter, State::flow) == Approx(flow_variance + 0.15 * 0.15).epsilon(1e-4));
}

TEST_CASE("Patches of a few paces are doubt of the flow, however the steps are split") {
    Parameters patchy;
    patchy.crop_patch_m = Real(0.12);
    Parameters even;
    even.crop_patch_m = Real(0);
    for (const double speed_mps : {0.4, 0.8}) {
        FlowFilter with(patchy);
        FlowFilter without(even);
        with.predict(swept(0.25, speed_mps));
        without.predict(swept(0.25, speed_mps));
        // From an empty drum the flow is what came in, and its doubt that of so many metres of swath.
        const double flow = mean(with, State::flow);
        REQUIRE(flow > 0.0);
        CHECK(flow == mean(without, State::flow));
        CHECK(variance(with, State::flow) - variance(without, State::flow) ==
              Approx(flow * flow * 0.12 / (0.25 * speed_mps)).epsilon(0.01));
        CHECK(variance(with, State::ln_crop) == variance(without, State::ln_crop));
        // Half a minute in steps of 0.25 s and of 0.05 s.
        const auto added = [&](double step_s) {
            FlowFilter a(patchy);
            FlowFilter b(even);
            for (long i = std::lround(30.0 / step_s); i > 0; --i) {
                a.predict(swept(step_s, speed_mps));
                b.predict(swept(step_s, speed_mps));
            }
            return variance(a, State::flow) - variance(b, State::flow);
        };
        CHECK(added(0.05) > 0.0);
        CHECK(added(0.25) == Approx(added(0.05)).epsilon(0.05));
    }
    FlowFilter standing(patchy);
    FlowFilter other(even);
    standing.predict(swept(0.25, 0.0));
    other.predict(swept(0.25, 0.0));
    CHECK(variance(standing, State::flow) == variance(other, State::flow));
}

TEST_CASE("Patches leave the flow less sure in steady work") {
    Parameters parameters;
    double before = 0.0;
    for (const double patch_m : {0.0, 0.06, 0.12, 0.5}) {
        parameters.crop_patch_m = static_cast<Real>(patch_m);
        FlowFilter filter(parameters);
        Plant plant;
        work(filter, plant, 600.0, 0.7, 0.5);
        const double sd = std::sqrt(variance(filter, State::flow));
        INFO("patches of " << patch_m << " m: sd " << sd << " kg/s");
        CHECK(sd > 1.05 * before);
        CHECK(std::abs(mean(filter, State::flow) - plant.flow_kgps) < 3.0 * sd);
        before = sd;
    }
}

TEST_CASE("A way driven with the speed unknown leaves the crop here behind") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 900.0, 0.7, 0.5);
    // Some patch richer than the mean.
    work(filter, plant, 60.0, 0.7, 0.7);
    const auto off_the_mean = [](const FlowFilter& f) {
        return mean(f, State::ln_crop) - mean(f, State::ln_mean);
    };
    const auto tie = [](const FlowFilter& f) {
        return static_cast<double>(f.belief().covariance(State::flow, State::ln_crop) -
                                   f.belief().covariance(State::flow, State::ln_mean));
    };
    REQUIRE(off_the_mean(filter) > 0.05);
    REQUIRE(tie(filter) != 0.0);
    FlowFilter stayed = filter;
    FlowFilter went = filter;
    for (int i = 0; i < 40; ++i) {
        Intake blind = swept(1.0, 0.0);
        blind.known = false;
        stayed.predict(blind);
        blind.distance_m = Real(0.75);
        went.predict(blind);
    }
    CHECK(mean(stayed, State::ln_crop) == mean(filter, State::ln_crop));
    CHECK(variance(stayed, State::ln_crop) == variance(filter, State::ln_crop));
    // crop_length_m is 30 by default: as far as that, a patch is 1/e of itself.
    const double likeness = std::exp(-1.0);
    CHECK(off_the_mean(went) == Approx(likeness * off_the_mean(filter)).epsilon(1e-3));
    CHECK(tie(went) == Approx(likeness * tie(filter)).epsilon(1e-3));
    CHECK(variance(went, State::ln_crop) > variance(filter, State::ln_crop));
    // The flow itself is followed from the weight alike.
    CHECK(mean(went, State::flow) == mean(stayed, State::flow));
    CHECK(variance(went, State::flow) == variance(stayed, State::flow));
}

TEST_CASE("Dead time and lag begin as told and are learnt within bounds") {
    FlowFilter filter{Parameters{}};
    CHECK(filter.dead_time_s() == Approx(6.0));
    CHECK(filter.lag_s() == Approx(8.0));
    Parameters sure;
    sure.drum_dead_time_sd_s = Real(0);
    sure.drum_lag_ln_sd = Real(0);
    for (const Parameters& parameters : {Parameters{}, sure}) {
        FlowFilter pushed(parameters);
        pushed.start(Real(0), Real(36));
        // Weights that no drum explains: the bounds must hold whatever comes.
        for (int i = 0; i < 40000; ++i) {
            Intake intake = swept(0.1, i % 400 < 200 ? 0.8 : 0.0);
            intake.area_rate_change_m2ps2 = Real(i % 400 < 5 ? 5 : (i % 400 > 195 && i % 400 < 205 ? -5 : 0));
            pushed.predict(intake);
            pushed.update(static_cast<Real>(0.15 * i + 60.0 * ((i / 50) % 2)), Real(4), Real(4));
            REQUIRE(pushed.dead_time_s() >= Real(0.4999));
            REQUIRE(pushed.dead_time_s() <= Real(20.001));
            REQUIRE(pushed.lag_s() >= Real(8.0 / 2.7183));
            REQUIRE(pushed.lag_s() <= Real(8.0 * 2.7183));
        }
    }
}

TEST_CASE("A step of no time changes nothing") {
    FlowFilter filter{Parameters{}};
    Plant plant;
    work(filter, plant, 60.0, 0.7, 0.5);
    const FlowFilter before = filter;
    CHECK(filter.predict(swept(0.0, 1.0)).lost_kg == Real(0));
    CHECK((filter.belief().mean == before.belief().mean));
    CHECK((filter.belief().covariance == before.belief().covariance));
}

TEST_CASE("Picking told as nothing or with its range the wrong way round leaves a filter that works") {
    for (const float low : {0.0F, 0.1F}) {
        for (const float high : {0.0F, 0.05F}) {
            INFO(low << " to " << high);
            Parameters p;
            p.picking_loss_share = 0.0F;
            p.picking_loss_low_share = low;
            p.picking_loss_high_share = high;
            FlowFilter filter(p);
            Intake intake;
            intake.dt_s = Real(0.1);
            intake.area_m2 = Real(0.26);
            intake.distance_m = Real(0.08);
            for (int i = 0; i < 600; ++i) filter.predict(intake);
            CHECK(filter.belief().mean.allFinite());
            CHECK(static_cast<double>(filter.picking_share()) > 0.0);
            CHECK(static_cast<double>(filter.picking_share()) < 0.01);
            CHECK(static_cast<double>(filter.belief().mean(FlowFilter::flow)) > 0.5);
        }
    }
}
