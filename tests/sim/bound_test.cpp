#include "score/bound.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>
#include <cmath>

using namespace podrate::sim;

namespace {

constexpr double kReadingKg = 3.0;
constexpr double kRateNoise = 0.009;  // (kg/s)2 a second

// A drum that neither delays nor spreads nor loses, and a crop that wanders without returning: what is left
// is a hopper filled at a rate that is a random walk.
TruePlant plain_plant(std::size_t count, double crop_cv, double crop_length_m) {
    TruePlant plant;
    plant.width_m = 1e-3;  // a swath so narrow that nothing is averaged across it
    plant.senses.rate_hz = 1.0;
    plant.drum.dead_time_s = 0.5;  // the middle of each second is that second's own
    plant.drum.lag_s = 0.001;
    plant.drum.picking_loss_share = 0.0;
    plant.drum.loss_share = 1e-12;
    plant.scale.noise_moving_kg = kReadingKg;
    ScenarioField field;
    field.crop_cv = crop_cv;
    field.crop_length_m = crop_length_m;
    field.patch_cv = 0.0;
    plant.fields = {field};
    plant.seconds.resize(count);
    for (TrueSecond& second : plant.seconds) {
        second.area_rate_m2ps = 2.0;
        second.standing_kgpm2 = 0.5;  // 1 kg/s, so that ln crop and rate change alike
        second.feed_kgps = 5.0;
        second.speed_mps = 1.0;
        second.moving = true;
    }
    return plant;
}

// The steady filtered covariance of [mass, rate] in closed form: Kalata, The tracking index, IEEE Trans.
// Aerosp. Electron. Syst. 20 (1984), 174-182, with noise on the rate only; T = 1 s.
Eigen::Matrix2d closed_form(double rate_noise, double reading_variance) {
    const double lambda = std::sqrt(rate_noise / reading_variance);
    const double s = (lambda + std::sqrt(lambda * lambda + 16.0)) / 2.0;
    const double rho = (s - std::sqrt(s * s - 4.0)) / 2.0;
    const double alpha = 1.0 - rho * rho;
    const double beta = lambda * rho;
    Eigen::Matrix2d p;
    p << alpha * reading_variance, beta * reading_variance, beta * reading_variance,
        beta * reading_variance * (1.0 / (1.0 - alpha) - 1.0);
    return p;
}

}  // namespace

TEST_CASE("The bound's steady state is the closed form of the mass and rate tracker") {
    const double length_m = 1e7;  // so long that the crop does not return within the test
    const FlowBound bound = flow_bound(plain_plant(3000, std::sqrt(kRateNoise * length_m / 2.0), length_m));
    const Eigen::Matrix2d filtered = closed_form(kRateNoise, kReadingKg * kReadingKg);
    // The flow into the hopper over a second is the rate at its start: known with that second's reading
    // besides.
    Eigen::Matrix2d step;
    step << 1.0, 1.0, 0.0, 1.0;
    Eigen::Matrix2d predicted = step * filtered * step.transpose();
    predicted(1, 1) += kRateNoise;
    const Eigen::Matrix2d gain = filtered * step.transpose() * predicted.inverse();
    const Eigen::Matrix2d smoothed = filtered + gain * (filtered - predicted) * gain.transpose();
    CHECK(bound.filter_variance.back() == Approx(smoothed(1, 1)).epsilon(2e-3));
    CHECK(smoothed(1, 1) < filtered(1, 1));
}

TEST_CASE("In the limit of slow crops the future halves the standard deviation") {
    // Continuous time: the smoother's variances are exactly a quarter of the filter's (limit of the Riccati
    // equation).
    const double length_m = 1e7;
    const double rate_noise = 1e-6;
    const FlowBound bound = flow_bound(plain_plant(6000, std::sqrt(rate_noise * length_m / 2.0), length_m));
    CHECK(bound.smoother_variance[3000] == Approx(bound.filter_variance[3000] / 4.0).epsilon(0.05));
}

TEST_CASE("The bound falls with better readings and never rises with the future") {
    TruePlant plant = plain_plant(1200, 0.12, 30.0);
    plant.drum = ScenarioDrum{};
    plant.scale = ScenarioScale{};
    std::vector<TrueSecond>& seconds = plant.seconds;
    for (std::size_t i = 400; i < 440; ++i) seconds[i].area_rate_m2ps = 0.0;
    for (std::size_t i = 800; i < 830; ++i) {
        seconds[i].area_rate_m2ps = 0.0;
        seconds[i].tipping = true;
    }
    const FlowBound coarse = flow_bound(plant);
    plant.scale.noise_moving_kg /= 2.0;
    const FlowBound fine = flow_bound(plant);
    REQUIRE(coarse.filter_variance.size() == seconds.size());
    for (std::size_t i = 30; i < seconds.size(); ++i) {
        CHECK(fine.filter_variance[i] <= coarse.filter_variance[i] * 1.0001);
        CHECK(coarse.smoother_variance[i] <= coarse.filter_variance[i]);
        CHECK(coarse.smoother_variance[i] >= 0.0);
    }
    // While nothing comes the drum empties and its flow becomes known.
    CHECK(coarse.filter_variance[439] < coarse.filter_variance[399] / 100.0);
}
