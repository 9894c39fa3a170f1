// Figures marked R were printed by tests/reference/smoother.R; statsmodels agrees with them.
#include "score/fixed_interval.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/nile.hpp"

using namespace podrate;
using sim::FilterStep;
using sim::smoothed;
using test::kNile;
using test::kNileLevelNoise;
using test::kNileNoise;

namespace {

// Quarterly numbers of Australian residents in thousands, March 1971 to March 1993: R's datasets::austres,
// after P. J. Brockwell and R. A. Davis (1996), Introduction to Time Series and Forecasting.
constexpr double kResidents[] = {
    13067.3, 13130.5, 13198.4, 13254.2, 13303.7, 13353.9, 13409.3, 13459.2, 13504.5, 13552.6,
    13614.3, 13669.5, 13722.6, 13772.1, 13832.0, 13862.6, 13893.0, 13926.8, 13968.9, 14004.7,
    14033.1, 14066.0, 14110.1, 14155.6, 14192.2, 14231.7, 14281.5, 14330.3, 14359.3, 14396.6,
    14430.8, 14478.4, 14515.7, 14554.9, 14602.5, 14646.4, 14695.4, 14746.6, 14807.4, 14874.4,
    14923.3, 14988.7, 15054.1, 15121.7, 15184.2, 15239.3, 15288.9, 15346.2, 15393.5, 15439.0,
    15483.5, 15531.5, 15579.4, 15628.5, 15677.3, 15736.7, 15788.3, 15839.7, 15900.6, 15961.5,
    16018.3, 16076.9, 16139.0, 16203.0, 16263.3, 16327.9, 16398.9, 16478.3, 16538.2, 16621.6,
    16697.0, 16777.2, 16833.1, 16891.6, 16956.8, 17026.3, 17085.4, 17106.9, 17169.4, 17239.4,
    17292.0, 17354.2, 17414.2, 17447.3, 17482.6, 17526.0, 17568.7, 17627.1, 17661.5};

template <int N>
struct Model {
    Square<double, N> jacobian;
    Vector<double, N> noise;
    double reading_noise;
};

// Measures the first state. `start` is the prediction for the first reading; what is NaN is not measured.
template <int N>
std::vector<FilterStep<N>> run(Gaussian<double, N> belief, const Model<N>& model,
                               const std::vector<double>& readings) {
    std::vector<FilterStep<N>> steps;
    for (const double reading : readings) {
        FilterStep<N> step;
        if (!steps.empty()) {
            step.jacobian = model.jacobian;
            belief.mean = (model.jacobian * belief.mean).eval();
            predict_covariance(belief, model.jacobian, model.noise);
        }
        step.predicted = belief;
        if (std::isfinite(reading)) update_scalar(belief, 0, reading, model.reading_noise);
        step.filtered = belief;
        steps.push_back(step);
    }
    return steps;
}

Gaussian<double, 2> wide_start() {
    Gaussian<double, 2> start;
    start.covariance = 1e7 * Square<double, 2>::Identity();
    return start;
}

// The level, and beside it a state that nothing moves and nothing measures.
Model<2> nile_model() {
    return {Square<double, 2>::Identity(), Vector<double, 2>(kNileLevelNoise, 0.0), kNileNoise};
}

Gaussian<double, 2> level_start(double mean, double variance) {
    Gaussian<double, 2> start;
    start.mean(0) = mean;
    start.covariance(0, 0) = variance;
    return start;
}

Model<2> trend_model(double level_noise, double slope_noise, double reading_noise) {
    Model<2> model;
    model.jacobian << 1.0, 1.0, 0.0, 1.0;
    model.noise << level_noise, slope_noise;
    model.reading_noise = reading_noise;
    return model;
}

std::vector<double> nile() {
    return std::vector<double>(std::begin(kNile), std::end(kNile));
}

std::vector<double> residents() {
    return std::vector<double>(std::begin(kResidents), std::end(kResidents));
}

void leave_out(std::vector<double>& readings, std::size_t first, std::size_t last) {
    for (std::size_t t = first; t <= last; ++t) readings[t - 1] = std::nan("");
}

// Exact diffuse start: the first year is the state, its noise the variance, and it is not taken again.
std::vector<Gaussian<double, 2>> diffuse(std::vector<double> readings) {
    const Gaussian<double, 2> start = level_start(readings.front(), kNileNoise);
    readings.front() = std::nan("");
    return smoothed(run(start, nile_model(), readings));
}

Approx exactly(double value) {
    return Approx(value).epsilon(1e-9).margin(0.0);
}

struct LevelAt {
    std::size_t t;
    double mean;
    double variance;
};

void check_levels(const std::vector<Gaussian<double, 2>>& beliefs, const std::vector<LevelAt>& reference,
                  double tolerance) {
    for (const LevelAt& r : reference) {
        INFO("t = " << r.t);
        CHECK(beliefs[r.t - 1].mean(0) == Approx(r.mean).epsilon(tolerance).margin(0.0));
        CHECK(beliefs[r.t - 1].covariance(0, 0) == Approx(r.variance).epsilon(tolerance).margin(0.0));
    }
}

struct TrendAt {
    std::size_t t;
    double level;
    double slope;
    double level_variance;
    double covariance;
    double slope_variance;
};

void check_trends(const std::vector<Gaussian<double, 2>>& beliefs, const std::vector<TrendAt>& reference) {
    for (const TrendAt& r : reference) {
        INFO("t = " << r.t);
        const Gaussian<double, 2>& belief = beliefs[r.t - 1];
        CHECK(belief.mean(0) == exactly(r.level));
        CHECK(belief.mean(1) == Approx(r.slope).epsilon(1e-8).margin(0.0));
        // Next to the start's variance of 1e7 fewer digits are left, here and in R.
        const double tolerance = r.t <= 2 ? 5e-6 : 1e-7;
        CHECK(belief.covariance(0, 0) == Approx(r.level_variance).epsilon(tolerance).margin(0.0));
        CHECK(belief.covariance(0, 1) == Approx(r.covariance).epsilon(tolerance).margin(0.0));
        CHECK(belief.covariance(1, 1) == Approx(r.slope_variance).epsilon(tolerance).margin(0.0));
    }
}

// A small run whose jacobian, noise and readings all change, against its definition: the mean and covariance
// of all states together, given all readings together. State 0 is measured, and told anew at one step.
struct Changing {
    static constexpr int kSize = 3;
    static constexpr int kSteps = 8;
    int retold_at = -1;
    double retold_kg = 40.0;
    double retold_variance = 9.0;

    static Square<double, kSize> jacobian(int k) {
        Square<double, kSize> j;
        j << 1.0, 0.9 + 0.05 * k, 0.1 * k, 0.0, 0.7 - 0.03 * k, 0.3, 0.0, 0.0, 0.95;
        return j;
    }
    static Vector<double, kSize> noise(int k) { return {0.2, 0.1 + 0.02 * k, 0.3}; }
    static bool measured(int k) { return k != 4; }
    static double reading(int k) { return 3.0 + 1.7 * k + 2.0 * std::sin(2.0 * k); }
    static double reading_noise(int k) { return 2.0 + 0.1 * k; }

    static Gaussian<double, kSize> start() {
        Gaussian<double, kSize> belief;
        belief.mean << 2.0, 1.0, 0.5;
        belief.covariance << 4.0, 0.5, 0.0, 0.5, 2.0, 0.3, 0.0, 0.3, 1.0;
        return belief;
    }

    [[nodiscard]] std::vector<Gaussian<double, kSize>> by_smoother() const {
        std::vector<FilterStep<kSize>> steps;
        Gaussian<double, kSize> belief = start();
        for (int k = 0; k < kSteps; ++k) {
            FilterStep<kSize> step;
            if (k > 0) {
                step.jacobian = jacobian(k);
                belief.mean = (step.jacobian * belief.mean).eval();
                predict_covariance(belief, step.jacobian, noise(k));
            }
            step.predicted = belief;
            if (k == retold_at) {
                step.retold = 0;
                belief.covariance.row(0).setZero();
                belief.covariance.col(0).setZero();
                belief.covariance(0, 0) = retold_variance;
                belief.mean(0) = retold_kg;
            } else if (measured(k)) {
                update_scalar(belief, 0, reading(k), reading_noise(k));
            }
            step.filtered = belief;
            steps.push_back(step);
        }
        return smoothed(steps);
    }

    [[nodiscard]] std::vector<Gaussian<double, kSize>> by_definition() const {
        constexpr int kAll = kSize * kSteps;
        using All = Eigen::MatrixXd;
        Eigen::VectorXd mean = Eigen::VectorXd::Zero(kAll);
        All covariance = All::Zero(kAll, kAll);
        mean.head(kSize) = start().mean;
        covariance.topLeftCorner(kSize, kSize) = start().covariance;
        for (int k = 1; k < kSteps; ++k) {
            const int at = kSize * k;
            Square<double, kSize> j = jacobian(k);
            Square<double, kSize> q = noise(k).asDiagonal();
            if (k == retold_at) {
                j.row(0).setZero();
                q(0, 0) = retold_variance;
            }
            mean.segment(at, kSize) = j * mean.segment(at - kSize, kSize);
            if (k == retold_at) mean(at) = retold_kg;
            covariance.block(at, 0, kSize, at) = j * covariance.block(at - kSize, 0, kSize, at);
            covariance.block(0, at, at, kSize) = covariance.block(at, 0, kSize, at).transpose();
            covariance.block(at, at, kSize, kSize) =
                j * covariance.block(at - kSize, at - kSize, kSize, kSize) * j.transpose() + q;
        }
        std::vector<int> read;
        for (int k = 0; k < kSteps; ++k) {
            if (measured(k) && k != retold_at) read.push_back(k);
        }
        const auto count = static_cast<int>(read.size());
        All pick = All::Zero(count, kAll);
        All noises = All::Zero(count, count);
        Eigen::VectorXd readings(count);
        for (int i = 0; i < count; ++i) {
            const int k = read[static_cast<std::size_t>(i)];
            pick(i, kSize * k) = 1.0;
            noises(i, i) = reading_noise(k);
            readings(i) = reading(k);
        }
        const All gain = covariance * pick.transpose() *
                         (pick * covariance * pick.transpose() + noises).partialPivLu().inverse();
        const Eigen::VectorXd mean_given = mean + gain * (readings - pick * mean);
        const All covariance_given = covariance - gain * pick * covariance;
        std::vector<Gaussian<double, kSize>> beliefs(kSteps);
        for (int k = 0; k < kSteps; ++k) {
            beliefs[static_cast<std::size_t>(k)].mean = mean_given.segment(kSize * k, kSize);
            beliefs[static_cast<std::size_t>(k)].covariance =
                covariance_given.block(kSize * k, kSize * k, kSize, kSize);
        }
        return beliefs;
    }
};

void check_same(const std::vector<Gaussian<double, 3>>& beliefs,
                const std::vector<Gaussian<double, 3>>& expected) {
    REQUIRE(beliefs.size() == expected.size());
    for (std::size_t k = 0; k < beliefs.size(); ++k) {
        INFO("step " << k);
        CHECK((beliefs[k].mean - expected[k].mean).cwiseAbs().maxCoeff() < 1e-9);
        CHECK((beliefs[k].covariance - expected[k].covariance).cwiseAbs().maxCoeff() < 1e-9);
    }
}

}  // namespace

TEST_CASE("The smoothed level of the Nile agrees from a diffuse start") {
    // R. The values at t = 1 and 50 are statsmodels' too, with its exact diffuse start.
    check_levels(diffuse(nile()),
                 {{1, 1111.668319127, 4032.157941808},
                  {2, 1110.857664622, 3242.930073225},
                  {10, 1097.721616550, 2333.112900918},
                  {29, 950.930086740, 2326.756917244},
                  {50, 834.763259104, 2326.756869814},
                  {99, 804.049595666, 3242.930073225},
                  {100, 798.370292608, 4032.157941808}},
                 1e-9);
}

TEST_CASE("The smoothed level of the Nile bridges years without a reading") {
    std::vector<double> readings = nile();
    leave_out(readings, 21, 40);
    leave_out(readings, 61, 80);
    // R. The value at t = 21 is statsmodels' too.
    check_levels(diffuse(readings),
                 {{1, 1111.320946574, 4032.186797448},
                  {20, 999.712684084, 3614.403429864},
                  {21, 990.083525972, 4723.604168613},
                  {30, 903.421102958, 9715.005902461},
                  {40, 807.129521832, 4723.597453063},
                  {41, 797.500363719, 3614.396007413},
                  {80, 839.465266140, 4723.604168613},
                  {100, 798.315114618, 4032.186797448}},
                 1e-9);
}

TEST_CASE("A wide start at zero pulls the first smoothed levels of the Nile and not the later ones") {
    check_levels(smoothed(run(level_start(0.0, 1e7), nile_model(), nile())),
                 {{1, 1111.220257568, 4030.532767337},
                  {2, 1110.529257012, 3242.056999245},
                  {50, 834.763258994, 2326.756869814},
                  {100, 798.370292608, 4032.157941808}},
                 1e-9);
}

TEST_CASE("The filtered and the smoothed trend of Australia's residents agree") {
    const std::vector<FilterStep<2>> steps = run(wide_start(), trend_model(0.0, 25.0, 100.0), residents());
    CHECK(steps[9].filtered.mean(0) == exactly(13554.091681158));
    CHECK(steps[9].filtered.mean(1) == exactly(48.126258686));
    CHECK(steps[88].filtered.mean(0) == exactly(17663.359846099));
    CHECK(steps[88].filtered.mean(1) == exactly(44.128556356));
    CHECK(steps[88].filtered.covariance(0, 0) == exactly(63.925440547));
    CHECK(steps[88].filtered.covariance(0, 1) == exactly(30.031050370));
    CHECK(steps[88].filtered.covariance(1, 1) == exactly(53.216121114));
    check_trends(smoothed(steps),
                 {{1, 13071.627872015, 61.009023530, 63.924941717, -30.030773662, 28.215943879},
                  {2, 13132.636895546, 59.894528979, 32.079325949, -10.288473394, 15.976955984},
                  {10, 13560.392129849, 54.106498523, 26.404024274, -5.827149630, 11.654166630},
                  {45, 15179.590058452, 57.574979178, 26.402589833, -5.826934207, 11.653868414},
                  {70, 16621.390696011, 73.961191180, 26.402590000, -5.826934065, 11.653868559},
                  {88, 17619.231289743, 44.128556356, 32.079460919, 1.814929257, 28.216121113},
                  {89, 17663.359846099, 44.128556356, 63.925440546, 30.031050370, 53.216121113}});
}

TEST_CASE("The smoothed trend of Australia's residents bridges quarters without a reading") {
    std::vector<double> readings = residents();
    leave_out(readings, 30, 44);
    check_trends(smoothed(run(wide_start(), trend_model(0.0, 25.0, 100.0), readings)),
                 {{1, 13071.627864284, 61.009031558, 63.924941717, -30.030773662, 28.215943879},
                  {29, 14366.240845246, 45.038063719, 55.842846660, 17.407777103, 33.393489642},
                  {30, 14411.278908965, 46.395307482, 124.051890507, 37.553281942, 38.807718912},
                  {37, 14758.139626210, 52.691736748, 950.528405338, -30.008377034, 30.386818065},
                  {44, 15132.252893679, 53.380681134, 124.051890507, -50.801266745, 33.393489642},
                  {45, 15185.633574813, 53.021347893, 55.842846660, -23.049972309, 22.172413606},
                  {89, 17663.359846097, 44.128556357, 63.925440546, 30.031050370, 53.216121113}});
}

TEST_CASE("The smoothed trend of the Nile agrees") {
    check_trends(smoothed(run(wide_start(), trend_model(kNileLevelNoise, 10.0, kNileNoise), nile())),
                 {{1, 1123.659378992, -4.450056511, 4818.080844000, -320.443460042, 140.342684470},
                  {10, 1098.913067045, -5.105833719, 2387.195520912, -0.539956963, 81.984527701},
                  {50, 832.782993807, -2.088089409, 2380.986925134, -6.381883215, 61.975510028},
                  {100, 781.216017078, -6.952210783, 4820.413631706, 320.602426448, 150.354927173}});
}

TEST_CASE("Where everything changes from step to step the smoother is the mean given all readings") {
    check_same(Changing().by_smoother(), Changing().by_definition());
}

TEST_CASE("A level told anew hands nothing back to the years before") {
    std::vector<FilterStep<2>> before = run(level_start(0.0, 1e7), nile_model(), nile());
    before.resize(27);
    std::vector<FilterStep<2>> steps = run(level_start(0.0, 1e7), nile_model(), nile());
    // The dam of 1899: what comes after says nothing of what was.
    steps[27].retold = 0;
    steps[27].filtered.mean(0) = 850.0;
    steps[27].filtered.covariance(0, 0) = 1e4;
    const auto beliefs = smoothed(steps);
    const auto alone = smoothed(before);
    for (std::size_t i = 0; i < alone.size(); ++i) {
        CHECK(beliefs[i].mean(0) == exactly(alone[i].mean(0)));
        CHECK(beliefs[i].covariance(0, 0) == exactly(alone[i].covariance(0, 0)));
    }
}

TEST_CASE("A state told anew leaves the others what all readings say of them") {
    Changing changing;
    changing.retold_at = 5;
    check_same(changing.by_smoother(), changing.by_definition());
}

TEST_CASE("The last smoothed belief is the filtered one and the future only narrows the earlier ones") {
    const std::vector<FilterStep<2>> steps = run(wide_start(), trend_model(0.0, 25.0, 100.0), residents());
    const auto beliefs = smoothed(steps);
    CHECK((beliefs.back().mean == steps.back().filtered.mean));
    CHECK((beliefs.back().covariance == steps.back().filtered.covariance));
    for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
        const Square<double, 2> gained = steps[i].filtered.covariance - beliefs[i].covariance;
        CHECK(gained(0, 0) >= 0.0);
        CHECK(gained(1, 1) >= 0.0);
        CHECK(gained.determinant() >= -1e-9 * gained(0, 0) * gained(1, 1));
        CHECK(beliefs[i].covariance.determinant() > 0.0);
    }
}

TEST_CASE("What is known exactly stays so on the way back") {
    // No slope, and none to come: the trend is a level, and its covariance cannot be inverted.
    Gaussian<double, 2> start;
    start.covariance << 1e7, 0.0, 0.0, 0.0;
    const auto trend = smoothed(run(start, trend_model(kNileLevelNoise, 0.0, kNileNoise), nile()));
    const auto level = smoothed(run(level_start(0.0, 1e7), nile_model(), nile()));
    for (std::size_t i = 0; i < trend.size(); ++i) {
        CHECK(trend[i].mean(0) == exactly(level[i].mean(0)));
        CHECK(trend[i].covariance(0, 0) == exactly(level[i].covariance(0, 0)));
        CHECK(trend[i].mean(1) == 0.0);
        CHECK(trend[i].covariance(1, 1) == 0.0);
    }
}

TEST_CASE("A run of one step is its own smoothing and an empty run gives nothing") {
    CHECK(smoothed(std::vector<FilterStep<2>>()).empty());
    const auto steps = run(level_start(0.0, 1e7), nile_model(), {1120.0});
    const auto beliefs = smoothed(steps);
    REQUIRE(beliefs.size() == 1);
    CHECK((beliefs[0].mean == steps[0].filtered.mean));
    CHECK((beliefs[0].covariance == steps[0].filtered.covariance));
}
