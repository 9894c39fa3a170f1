// Spreads between machines and days against published meta-analyses as R's metafor 3.8-1 fits them
// (rma, rma.mv, blup, ranef; method = "REML").
#include "tune/nested_effects.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace podrate::sim;

namespace {

// ln relative risks of 13 trials of a vaccine (Colditz et al. 1994; metafor's dat.bcg by escalc).
const std::vector<Measured> kTrials = {
    {0, -0.8893113339, 0.3255847650}, {1, -1.5853886572, 0.1945811214},  {2, -1.3480731483, 0.4153679654},
    {3, -1.4415511900, 0.0200100319}, {4, -0.2175473222, 0.0512101722},  {5, -0.7861155858, 0.0069056185},
    {6, -1.6208982236, 0.2230172476}, {7, 0.0119523335, 0.0039615793},   {8, -0.4694176487, 0.0564342105},
    {9, -1.3713448035, 0.0730247936}, {10, -0.3393588283, 0.0124122140}, {11, 0.4459134006, 0.5325058452},
    {12, -0.0173139482, 0.0714046597}};

// Effects of the school year in 56 schools of 11 districts (Konstantopoulos 2011; dat.konstantopoulos2011).
const std::vector<Measured> kSchools = {
    {0, -0.18, 0.118}, {0, -0.22, 0.118}, {0, 0.23, 0.144},  {0, -0.30, 0.144}, {1, 0.13, 0.014},
    {1, -0.26, 0.014}, {1, 0.19, 0.015},  {1, 0.32, 0.024},  {2, 0.45, 0.023},  {2, 0.38, 0.043},
    {2, 0.29, 0.012},  {3, 0.16, 0.020},  {3, 0.65, 0.004},  {3, 0.36, 0.004},  {3, 0.60, 0.007},
    {4, 0.08, 0.019},  {4, 0.04, 0.007},  {4, 0.19, 0.005},  {4, -0.06, 0.004}, {5, -0.18, 0.020},
    {5, 0.00, 0.018},  {5, 0.00, 0.019},  {5, -0.28, 0.022}, {5, -0.04, 0.020}, {5, -0.30, 0.021},
    {5, 0.07, 0.006},  {5, 0.00, 0.007},  {5, 0.05, 0.007},  {5, -0.08, 0.007}, {5, -0.09, 0.007},
    {6, 0.30, 0.015},  {6, 0.98, 0.011},  {6, 1.19, 0.010},  {7, -0.07, 0.001}, {7, -0.05, 0.001},
    {7, -0.01, 0.001}, {7, 0.02, 0.001},  {7, -0.03, 0.001}, {7, 0.00, 0.001},  {7, 0.01, 0.001},
    {7, -0.10, 0.001}, {8, 0.50, 0.010},  {8, 0.66, 0.011},  {8, 0.20, 0.010},  {8, 0.00, 0.009},
    {8, 0.05, 0.013},  {8, 0.07, 0.013},  {9, -0.52, 0.031}, {9, 0.70, 0.031},  {9, -0.03, 0.030},
    {9, 0.27, 0.030},  {9, -0.34, 0.030}, {10, 0.12, 0.087}, {10, 0.61, 0.082}, {10, 0.04, 0.067},
    {10, -0.05, 0.067}};

}  // namespace

TEST_CASE("One measurement of each: spread and mean of the vaccine's trials are R's") {
    const auto fit = fit_nested(kTrials, SpreadFit::restricted);
    REQUIRE(fit);
    CHECK(fit->machine_sd * fit->machine_sd == Approx(0.313243258).epsilon(1e-5));
    CHECK(fit->day_sd == 0.0);
    CHECK(fit->mean == Approx(-0.714532342).epsilon(1e-6));
    CHECK(fit->mean_sd == Approx(0.179781516).epsilon(1e-6));
    // blup(): of mean and offset.
    CHECK(fit->mean + fit->machines[0].offset == Approx(-0.800234).margin(2e-6));
    CHECK(fit->machines[0].level_sd == Approx(0.409930).epsilon(1e-5));
    CHECK(fit->mean + fit->machines[12].offset == Approx(-0.146743).margin(2e-6));
    CHECK(fit->machines[12].level_sd == Approx(0.243440).epsilon(1e-5));
}

TEST_CASE("Several of each: both spreads, mean and offsets of the schools are R's") {
    const auto fit = fit_nested(kSchools, SpreadFit::restricted);
    REQUIRE(fit);
    CHECK(fit->machine_sd * fit->machine_sd == Approx(0.065061944).epsilon(1e-5));
    CHECK(fit->day_sd * fit->day_sd == Approx(0.032736517).epsilon(1e-5));
    CHECK(fit->mean == Approx(0.184713164).epsilon(1e-6));
    CHECK(fit->mean_sd == Approx(0.084555919).epsilon(1e-6));
    CHECK(fit->machines[0].offset == Approx(-0.18998596).epsilon(1e-4));
    CHECK(fit->machines[0].sd == Approx(0.1665397).epsilon(1e-4));
    CHECK(fit->machines[6].offset == Approx(0.53427780).epsilon(1e-4));
    CHECK(fit->machines[6].sd == Approx(0.1297891).epsilon(1e-4));
    CHECK(fit->new_sd() ==
          Approx(std::sqrt(0.065061944 + 0.032736517 + 0.084555919 * 0.084555919)).epsilon(1e-5));
}

TEST_CASE("What all others tell of one is what their joint normal says") {
    const std::vector<double> residuals = left_out_residuals(kSchools, SpreadFit::restricted);
    REQUIRE(residuals.size() == kSchools.size());
    for (const std::size_t left : {std::size_t{2}, std::size_t{31}, std::size_t{50}}) {
        std::vector<Measured> others = kSchools;
        others.erase(others.begin() + static_cast<long>(left));
        const auto fit = fit_nested(others, SpreadFit::restricted);
        const auto count = static_cast<Eigen::Index>(others.size());
        Eigen::MatrixXd covariance(count, count);
        Eigen::VectorXd values(count);
        Eigen::VectorXd cross(count);
        const double machine_var = fit->machine_sd * fit->machine_sd;
        for (Eigen::Index i = 0; i < count; ++i) {
            const Measured& a = others[static_cast<std::size_t>(i)];
            values(i) = a.value;
            cross(i) = a.machine == kSchools[left].machine ? machine_var : 0.0;
            for (Eigen::Index j = 0; j < count; ++j)
                covariance(i, j) =
                    a.machine == others[static_cast<std::size_t>(j)].machine ? machine_var : 0.0;
            covariance(i, i) += a.variance + fit->day_sd * fit->day_sd;
        }
        // Universal kriging with an unknown mean.
        const Eigen::LDLT<Eigen::MatrixXd> solver(covariance);
        const Eigen::VectorXd ones = Eigen::VectorXd::Ones(count);
        const double information = ones.dot(solver.solve(ones));
        const double mean = ones.dot(solver.solve(values)) / information;
        const double predicted = mean + cross.dot(solver.solve(values - mean * ones));
        const double lever = 1.0 - ones.dot(solver.solve(cross));
        const double variance = machine_var + fit->day_sd * fit->day_sd + kSchools[left].variance -
                                cross.dot(solver.solve(cross)) + lever * lever / information;
        CHECK(residuals[left] ==
              Approx((kSchools[left].value - predicted) / std::sqrt(variance)).epsilon(1e-6));
    }
}

TEST_CASE("A measurement that is far off is named and no other") {
    std::mt19937 random(5);
    std::normal_distribution<double> normal;
    std::vector<Measured> all;
    for (std::size_t machine = 0; machine < 4; ++machine) {
        const double level = 0.3 * normal(random);
        for (int day = 0; day < 8; ++day) all.push_back({machine, level + 0.1 * normal(random), 0.01});
    }
    all[13].value += 1.5;
    const std::vector<double> residuals = left_out_residuals(all, SpreadFit::restricted);
    for (std::size_t i = 0; i < all.size(); ++i) CHECK((std::abs(residuals[i]) > 3.0) == (i == 13));
}

TEST_CASE("One machine has days alone, and a single measurement tells nothing") {
    CHECK_FALSE(fit_nested({{0, 1.0, 0.1}}, SpreadFit::restricted));
    const auto one = fit_nested({{0, 1.0, 0.01}, {0, 2.0, 0.01}, {0, 3.0, 0.01}}, SpreadFit::restricted);
    REQUIRE(one);
    CHECK(one->machine_sd == 0.0);
    CHECK(one->mean == Approx(2.0));
    CHECK(one->day_sd * one->day_sd == Approx(0.99).epsilon(1e-4));  // the sample's variance less the doubt
    const std::vector<double> residuals =
        left_out_residuals({{0, 1.0, 0.1}, {1, 2.0, 0.1}}, SpreadFit::restricted);
    CHECK(residuals == std::vector<double>{0.0, 0.0});
}

TEST_CASE("Spreads of few days stay above zero, and what is thought of the next day is seldom too sure") {
    // A machine's days that differ by 0.2, each measured to 0.2; 90 % ranges of a further day.
    std::mt19937_64 bits(7);
    std::normal_distribution<double> normal;
    constexpr int kRounds = 2000;
    for (const int days : {2, 3, 5, 30}) {
        INFO(days << " days");
        int held[2] = {0, 0};
        int at_zero = 0;
        double widest = 0.0;
        for (int round = 0; round < kRounds; ++round) {
            std::vector<Measured> all;
            for (int day = 0; day < days; ++day)
                all.push_back({0, 0.2 * normal(bits) + 0.2 * normal(bits), 0.04});
            const double next = 0.2 * normal(bits);
            for (const SpreadFit how : {SpreadFit::restricted, SpreadFit::above_zero}) {
                const auto fit = fit_nested(all, how);
                const double reach = 1.645 * fit->new_sd();
                held[static_cast<int>(how)] += std::abs(next - fit->mean) < reach ? 1 : 0;
                if (how == SpreadFit::restricted) continue;
                at_zero += fit->day_sd < 1e-3 ? 1 : 0;
                widest = std::max(widest, fit->day_sd);
            }
        }
        const double plain = static_cast<double>(held[0]) / kRounds;
        const double kept = static_cast<double>(held[1]) / kRounds;
        INFO("held by restricted likelihood " << plain << ", kept above zero " << kept << ", widest "
                                              << widest);
        CHECK(at_zero == 0);
        CHECK(widest < 1.5);
        CHECK(kept > plain);
        CHECK(kept > 0.86);
        if (days <= 3) CHECK(plain < 0.8);
        if (days == 30) CHECK(kept == Approx(0.9).margin(0.03));
    }
}
