// Prediction and update together, as a local linear trend. Reference states: R and statsmodels, which agree.
#include <catch2/catch.hpp>
#include <vector>

#include "core/nile.hpp"
#include "podrate/filter/kalman.hpp"

using namespace podrate;

namespace {

using Trend = Gaussian<double, 2>;

struct Variances {
    double measurement;
    double level;
    double slope;
};

// Start: zero, 1e7 I, taken as the prediction for the first reading.
std::vector<Trend> run(const double* series, int count, const Variances& v) {
    Trend belief;
    belief.covariance = 1e7 * Square<double, 2>::Identity();
    Square<double, 2> step;
    step << 1.0, 1.0, 0.0, 1.0;
    Vector<double, 2> noise;
    noise << v.level, v.slope;
    std::vector<Trend> states(1, belief);
    for (int t = 0; t < count; ++t) {
        if (t > 0) {
            belief.mean = (step * belief.mean).eval();
            predict_covariance(belief, step, noise);
        }
        update_scalar(belief, 0, series[t], v.measurement);
        states.push_back(belief);
    }
    return states;
}

// The reference gives six decimals.
Approx printed(double value) {
    return Approx(value).epsilon(0.0).margin(0.6e-6);
}

}  // namespace

TEST_CASE("The local linear trend of the Nile agrees") {
    const std::vector<Trend> states = run(test::kNile, 100, {15099.0, 1469.1, 10.0});
    CHECK(states[2].mean(0) == printed(1159.937253));
    CHECK(states[2].mean(1) == printed(41.557034));
    CHECK(states[10].mean(0) == printed(1190.418543));
    CHECK(states[10].mean(1) == printed(11.282204));
    CHECK(states[100].mean(0) == printed(781.216017));
    CHECK(states[100].mean(1) == printed(-6.952211));
    CHECK(states[100].covariance(0, 0) == printed(4820.413632));
    CHECK(states[100].covariance(0, 1) == printed(320.602426));
    CHECK(states[100].covariance(1, 1) == printed(150.354927));
}

TEST_CASE("The covariance of a prediction is the textbook product") {
    Trend belief;
    belief.covariance << 4.0, 1.0, 1.0, 9.0;
    Square<double, 2> step;
    step << 1.0, 0.5, 0.0, 1.0;
    Vector<double, 2> noise;
    noise << 0.25, 0.5;
    predict_covariance(belief, step, noise);
    // By hand: 4 + 2 * 0.5 * 1 + 0.25 * 9 + 0.25; 1 + 0.5 * 9; 9 + 0.5.
    CHECK(belief.covariance(0, 0) == Approx(7.5));
    CHECK(belief.covariance(0, 1) == Approx(5.5));
    CHECK(belief.covariance(1, 0) == belief.covariance(0, 1));
    CHECK(belief.covariance(1, 1) == Approx(9.5));
}

TEST_CASE("Measuring one state moves the others by their covariance with it") {
    Gaussian<double, 3> belief;
    belief.mean << 1.0, 2.0, 3.0;
    belief.covariance << 4.0, 2.0, 0.0, 2.0, 9.0, 0.0, 0.0, 0.0, 1.0;
    update_scalar(belief, 1, 12.0, 1.0);
    // Gain (2, 9, 0)/10 on a residual of 10.
    CHECK(belief.mean(0) == Approx(3.0));
    CHECK(belief.mean(1) == Approx(11.0));
    CHECK(belief.mean(2) == 3.0);
    CHECK(belief.covariance(0, 0) == Approx(4.0 - 0.4));
    CHECK(belief.covariance(1, 1) == Approx(0.9));
    CHECK(belief.covariance(0, 1) == Approx(0.2));
    CHECK(belief.covariance(2, 2) == Approx(1.0));
}
