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
TrueMachine plain_machine() {
    TrueMachine machine;
    machine.rate_hz = 1.0;
    machine.dead_time_s = 0.5;  // the middle of each second is that second's own
    machine.lag_s = 0.001;
    machine.picking_loss_share = 0.0;
    machine.drum_loss_share = 1e-12;
    machine.noise_moving_kg = kReadingKg;
    return machine;
}

std::vector<TrueSecond> steady_work(std::size_t count) {
    std::vector<TrueSecond> seconds(count);
    for (TrueSecond& second : seconds) {
        second.area_rate_m2ps = 2.0;
        second.standing_kgpm2 = 0.5;  // 1 kg/s, so that ln crop and rate change alike
        second.width_m = 2.0;         // 1 m/s
        second.moving = true;
    }
    return seconds;
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
    const TrueCrop crop = {std::sqrt(kRateNoise * length_m / 2.0), length_m};
    const FlowBound bound = flow_bound(plain_machine(), {crop}, steady_work(3000));
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
    const TrueCrop crop = {std::sqrt(rate_noise * length_m / 2.0), length_m};
    const FlowBound bound = flow_bound(plain_machine(), {crop}, steady_work(6000));
    CHECK(bound.smoother_variance[3000] == Approx(bound.filter_variance[3000] / 4.0).epsilon(0.05));
}

TEST_CASE("The bound falls with better readings and never rises with the future") {
    std::vector<TrueSecond> seconds = steady_work(1200);
    for (std::size_t i = 400; i < 440; ++i) seconds[i].area_rate_m2ps = 0.0;
    for (std::size_t i = 800; i < 830; ++i) {
        seconds[i].area_rate_m2ps = 0.0;
        seconds[i].tipping = true;
    }
    TrueMachine machine;
    const std::vector<TrueCrop> crops = {TrueCrop{}};
    const FlowBound coarse = flow_bound(machine, crops, seconds);
    machine.noise_moving_kg /= 2.0;
    const FlowBound fine = flow_bound(machine, crops, seconds);
    REQUIRE(coarse.filter_variance.size() == seconds.size());
    for (std::size_t i = 30; i < seconds.size(); ++i) {
        CHECK(fine.filter_variance[i] <= coarse.filter_variance[i] * 1.0001);
        CHECK(coarse.smoother_variance[i] <= coarse.filter_variance[i]);
        CHECK(coarse.smoother_variance[i] >= 0.0);
    }
    // While nothing comes the drum empties and its flow becomes known.
    CHECK(coarse.filter_variance[439] < coarse.filter_variance[399] / 100.0);
}
