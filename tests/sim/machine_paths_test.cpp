// The forecast's paths against renewal theory, and worked by hand.
#include "plan/machine_paths.hpp"

#include <catch2/catch.hpp>

#include "podrate/math/elementary.hpp"

using namespace podrate::sim;

namespace {

// 1 kg/s while it works, tips that take no time, nothing that varies.
GangModel even_model() {
    GangModel model;
    MachineModel m;
    m.id = "alder";
    m.capacity_kg = 100.0;
    m.loads_kg.assign(1000, 60.0);
    model.machines = {m};
    model.ln_mean = {0.0, 0.0};
    model.rate_ln_sd = 0.0;
    model.drift_ln_sd = 0.0;
    model.load_share = 0.6;
    return model;
}

PathDraws even_draws() {
    PathDraws draws;
    draws.machines = {{0.0, 1e-12, 1e-12}};
    draws.tips = {{0.0, 0.0}};
    return draws;
}

struct Moments {
    double mean = 0.0;
    double variance = 0.0;
};

Moments moments(const MachinePaths& paths, std::size_t count, std::size_t point) {
    Moments m;
    for (std::size_t i = 0; i < count; ++i) m.mean += paths.kg(i, point) / static_cast<double>(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double off = paths.kg(i, point) - m.mean;
        m.variance += off * off / static_cast<double>(count - 1);
    }
    return m;
}

}  // namespace

TEST_CASE("Without chance a path delivers its rate in loads") {
    const GangModel model = even_model();
    const PathGrid grid{600.0, 6};
    const std::vector<PathDraws> draws(3, even_draws());
    const MachinePaths paths(model, 0, draws, 1, grid, Begin::as_it_is);
    CHECK(paths.kg(0, 0) == 0.0);
    for (std::size_t k = 1; k <= 6; ++k)
        CHECK(paths.kg(1, k) == Approx(600.0 * static_cast<double>(k)).margin(130.0));
    // Late by a step and a half, it delivers what it would have delivered so much earlier.
    CHECK(paths.kg_late(1, 4, 900.0) == Approx(0.5 * (paths.kg(1, 2) + paths.kg(1, 3))));
    CHECK(paths.kg_late(1, 1, 600.0) == 0.0);
    CHECK(paths.kg_late(1, 1, 7200.0) == 0.0);
}

TEST_CASE("A faster harvest shortens harvest and leaves turns as they are") {
    GangModel model = even_model();
    model.machines[0].harvest_share = 0.8;
    const PathGrid grid{36000.0, 1};
    const std::vector<PathDraws> draws(1, even_draws());
    const MachinePaths paths(model, 0, draws, 1, grid, Begin::as_it_is, 1.25);
    // A kg takes 0.8/1.25 + 0.2 s.
    CHECK(paths.kg(0, 1) == Approx(36000.0 / 0.84).margin(130.0));
}

TEST_CASE("Stops that alternate with work cost what renewal theory says, in the mean and in the spread") {
    // Work exponential with mean U, stops log-normal with mean D and variance V: by the renewal-reward
    // theorem the share at work is U/(U + D), and the time at work spreads with variance (U^2 V + D^2 U^2)/(U
    // + D)^3 a second (Cox, Renewal Theory, 1962, on alternating renewal processes; Takacs 1957; from
    // memory).
    constexpr double kU = 3000.0;
    constexpr double kLnSd = 0.8;
    constexpr double kD = 1200.0;
    const double ln_mean = podrate::math::ln(kD) - 0.5 * kLnSd * kLnSd;
    const double v = kD * kD * (podrate::math::exp(kLnSd * kLnSd) - 1.0);
    GangModel model = even_model();
    model.short_stop.ln_sd = kLnSd;
    PathDraws draw = even_draws();
    draw.machines[0].short_stops_per_s = 1.0 / kU;
    draw.short_ln_mean_s = ln_mean;
    constexpr std::size_t kPaths = 4000;
    const std::vector<PathDraws> draws(kPaths, draw);
    const PathGrid grid{360000.0, 2};
    const MachinePaths paths(model, 0, draws, 11, grid, Begin::as_it_is);
    const Moments half = moments(paths, kPaths, 1);
    const Moments whole = moments(paths, kPaths, 2);
    // From one moment to the next, so that the start does not count; four standard errors.
    const double per_s = (kU * kU * v + kD * kD * kU * kU) / ((kU + kD) * (kU + kD) * (kU + kD));
    const double sd = std::sqrt(per_s * 360000.0);
    CHECK(whole.mean - half.mean ==
          Approx(360000.0 * kU / (kU + kD)).margin(4.0 * sd / std::sqrt(1.0 * kPaths)));
    CHECK(whole.variance - half.variance == Approx(per_s * 360000.0).epsilon(0.15));
    CHECK(whole.variance == Approx(per_s * 720000.0).epsilon(0.1));
}

TEST_CASE("A stop that has lasted goes on as the rest of its kind") {
    GangModel model = even_model();
    model.breakdown.ln_sd = 0.7;
    model.short_stop.ln_sd = 0.7;
    model.machines[0].doing = Doing::stopped;
    model.machines[0].doing_s = 2400.0;
    PathDraws draw = even_draws();
    // Short ones never get that old, so it is a breakdown of median 1800 s.
    draw.short_ln_mean_s = podrate::math::ln(60.0);
    draw.breakdown_ln_mean_s = podrate::math::ln(1800.0);
    constexpr std::size_t kPaths = 20000;
    const std::vector<PathDraws> draws(kPaths, draw);
    const PathGrid grid{1200.0, 1};
    const MachinePaths paths(model, 0, draws, 5, grid, Begin::as_it_is);
    std::size_t still = 0;
    for (std::size_t i = 0; i < kPaths; ++i)
        if (paths.kg(i, 1) <= 0.0) ++still;
    // Nothing has come by 1200 s where the stop, or the first load after it, lasts to there.
    const auto above = [](double s) { return 1.0 - normal_below(podrate::math::ln(s / 1800.0) / 0.7); };
    const double expected = above(2400.0 + 1140.0) / above(2400.0);
    CHECK(static_cast<double>(still) / kPaths == Approx(expected).margin(4.0 * std::sqrt(0.25 / kPaths)));
    // Back at work, no stop is left.
    const MachinePaths back(model, 0, draws, 5, grid, Begin::at_work);
    CHECK(back.kg(0, 1) > 1000.0);
}

TEST_CASE("The same seed gives the same paths whatever else is asked, another seed others") {
    GangModel model = even_model();
    model.rate_ln_sd = 0.2;
    PathDraws draw = even_draws();
    draw.machines[0].short_stops_per_s = 1.0 / 1800.0;
    draw.short_ln_mean_s = 6.0;
    const PathGrid grid{3600.0, 4};
    const MachinePaths few(model, 0, std::vector<PathDraws>(10, draw), 3, grid, Begin::as_it_is);
    const MachinePaths many(model, 0, std::vector<PathDraws>(50, draw), 3, grid, Begin::as_it_is);
    const MachinePaths other(model, 0, std::vector<PathDraws>(10, draw), 4, grid, Begin::as_it_is);
    int differ = 0;
    for (std::size_t i = 0; i < 10; ++i) {
        CHECK(few.kg(i, 4) == many.kg(i, 4));
        if (few.kg(i, 4) != other.kg(i, 4)) ++differ;
    }
    CHECK(differ == 10);
}
