// The scalar update as a local-level model on a published series. Reference states: R's KalmanRun and
// statsmodels, which agree to 9 digits.
#include "core/nile.hpp"

#include <catch2/catch.hpp>
#include <vector>

#include "podrate/filter/kalman.hpp"

using namespace podrate;
using test::kNile;
using test::kNileLevelNoise;
using test::kNileNoise;

namespace {

using Level = Gaussian<double, 1>;

// Filtered states after each year; `missing` years are predicted only.
template <class Missing>
std::vector<Level> run(Level belief, int first_year, Missing missing) {
    std::vector<Level> states(static_cast<std::size_t>(first_year), belief);
    const Square<double, 1> stays = Square<double, 1>::Identity();
    Vector<double, 1> noise;
    noise << kNileLevelNoise;
    for (int t = first_year; t <= 100; ++t) {
        if (t > 1) predict_covariance(belief, stays, noise);
        if (!missing(t)) update_scalar(belief, 0, kNile[t - 1], kNileNoise);
        states.push_back(belief);
    }
    return states;
}

bool none(int) {
    return false;
}

Level level(double mean, double variance) {
    Level belief;
    belief.mean(0) = mean;
    belief.covariance(0, 0) = variance;
    return belief;
}

// Exact diffuse start: the first year is the state, its noise the variance. states[t] is year t.
template <class Missing>
std::vector<Level> run_diffuse(Missing missing) {
    return run(level(kNile[0], kNileNoise), 2, missing);
}

Approx exactly(double value) {
    return Approx(value).epsilon(1e-9).margin(0.0);
}

}  // namespace

TEST_CASE("The local level filter of the Nile agrees from a diffuse start") {
    const std::vector<Level> states = run_diffuse(none);
    const struct {
        std::size_t t;
        double mean;
    } reference[] = {
        {1, 1120.000000000}, {2, 1140.927839935},  {3, 1072.798529527},  {4, 1117.308954564},
        {5, 1129.972136111}, {6, 1138.457997615},  {7, 1048.856662942},  {8, 1098.029645486},
        {9, 1171.301184455}, {10, 1162.902615457}, {100, 798.370292608},
    };
    for (const auto& r : reference) {
        INFO("t = " << r.t);
        CHECK(states[r.t].mean(0) == exactly(r.mean));
    }
    CHECK(states[1].covariance(0, 0) == 15099.0);
    CHECK(states[2].covariance(0, 0) == exactly(7899.736379));
    CHECK(states[10].covariance(0, 0) == exactly(4051.284177));
    CHECK(states[100].covariance(0, 0) == exactly(4032.157942));
}

TEST_CASE("The local level filter of the Nile agrees from a start at zero with a wide variance") {
    const std::vector<Level> states = run(level(0.0, 1e7), 1, none);
    const struct {
        std::size_t t;
        double mean;
    } reference[] = {
        {1, 1118.311461524}, {2, 1140.108439164},  {3, 1072.316018489},  {4, 1116.974767727},
        {5, 1129.735807664}, {10, 1162.854823817}, {100, 798.370292608},
    };
    for (const auto& r : reference) {
        INFO("t = " << r.t);
        CHECK(states[r.t].mean(0) == exactly(r.mean));
    }
}

TEST_CASE("The local level filter of the Nile bridges years without a reading") {
    const std::vector<Level> states =
        run_diffuse([](int t) { return (t >= 21 && t <= 40) || (t >= 61 && t <= 80); });
    CHECK(states[40].mean(0) == exactly(1026.141555));
    CHECK(states[40].covariance(0, 0) == exactly(33414.196160));
    CHECK(states[41].mean(0) == exactly(889.949720));
    CHECK(states[41].covariance(0, 0) == exactly(10537.788961));
    CHECK(states[100].mean(0) == exactly(798.315115));
}

TEST_CASE("A single reading moves the level by the textbook gain") {
    Level belief = level(10.0, 4.0);
    const Innovation<double> innovation = innovation_of(belief, 0, 16.0, 8.0);
    CHECK(innovation.residual == 6.0);
    CHECK(innovation.variance == 12.0);
    update_scalar(belief, 0, 16.0, 8.0);
    // Gain 4/12: mean 10 + 6/3, variance 4 * 8/12.
    CHECK(belief.mean(0) == Approx(12.0));
    CHECK(belief.covariance(0, 0) == Approx(8.0 / 3.0));
}
