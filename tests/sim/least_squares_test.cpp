// Nonlinear fits against certified values: NIST Statistical Reference Datasets (StRD), nonlinear regression,
// https://www.itl.nist.gov/div898/strd/ : data, certified parameters, their standard deviations and the
// residual standard deviation.
#include "analysis/least_squares.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace podrate::sim;

namespace {

struct Point {
    double x;
    double y;
};

struct Certified {
    double value;
    double sd;
};

struct Dataset {
    std::vector<Point> points;
    double (*model)(const Eigen::VectorXd& b, double x);
    std::vector<Certified> parameters;
    double residual_sd;
    std::vector<std::vector<double>> starts;  // NIST's two
};

const Dataset kDanWood = {
    {{1.309, 2.138}, {1.471, 3.421}, {1.490, 3.597}, {1.565, 4.340}, {1.611, 4.882}, {1.680, 5.660}},
    [](const Eigen::VectorXd& b, double x) { return b[0] * std::pow(x, b[1]); },
    {{0.76886226176, 0.018281973860}, {3.8604055871, 0.051726610913}},
    0.032853114039,
    {{1.0, 5.0}, {0.7, 4.0}}};

const Dataset kBoxBod = {
    {{1, 109}, {2, 149}, {3, 149}, {5, 191}, {7, 213}, {10, 224}},
    [](const Eigen::VectorXd& b, double x) { return b[0] * (1.0 - std::exp(-b[1] * x)); },
    {{213.80940889, 12.354515176}, {0.54723748542, 0.10455993237}},
    17.088072423,
    {{1.0, 1.0}, {100.0, 0.75}}};

const Dataset kRat42 = {
    {{9, 8.93},
     {14, 10.8},
     {21, 18.59},
     {28, 22.33},
     {42, 39.35},
     {57, 56.11},
     {63, 61.73},
     {70, 64.62},
     {79, 67.08}},
    [](const Eigen::VectorXd& b, double x) { return b[0] / (1.0 + std::exp(b[1] - b[2] * x)); },
    {{72.462237576, 1.7340283401}, {2.6180768402, 0.088295217536}, {0.067359200066, 0.0034465663377}},
    1.1587725499,
    {{100.0, 1.0, 0.1}, {75.0, 2.5, 0.07}}};

void check_certified(const Dataset& set) {
    for (const std::vector<double>& from : set.starts) {
        const Eigen::VectorXd start =
            Eigen::Map<const Eigen::VectorXd>(from.data(), static_cast<Eigen::Index>(from.size()));
        const auto residuals = [&set](const Eigen::VectorXd& b, Eigen::VectorXd& r) {
            for (std::size_t i = 0; i < set.points.size(); ++i)
                r[static_cast<Eigen::Index>(i)] = set.points[i].y - set.model(b, set.points[i].x);
        };
        const LeastSquaresFit fit = least_squares(residuals, start, static_cast<long>(set.points.size()));
        INFO("from " << from[0]);
        REQUIRE(fit.converged);
        CHECK(std::sqrt(fit.residual_variance()) == Approx(set.residual_sd).epsilon(1e-8));
        for (std::size_t i = 0; i < set.parameters.size(); ++i) {
            const auto k = static_cast<Eigen::Index>(i);
            CHECK(fit.value[k] == Approx(set.parameters[i].value).epsilon(1e-6));
            CHECK(std::sqrt(fit.inverse_information(k, k) * fit.residual_variance()) ==
                  Approx(set.parameters[i].sd).epsilon(1e-5));
        }
    }
}

}  // namespace

TEST_CASE("Nonlinear fits reach NIST's certified values from both of its starts: DanWood") {
    check_certified(kDanWood);
}

TEST_CASE("Nonlinear fits reach NIST's certified values from both of its starts: BoxBOD") {
    check_certified(kBoxBod);
}

TEST_CASE("Nonlinear fits reach NIST's certified values from both of its starts: Rat42") {
    check_certified(kRat42);
}

TEST_CASE("As many residuals as parameters leave no variance to tell") {
    const auto residuals = [](const Eigen::VectorXd& b, Eigen::VectorXd& r) { r[0] = b[0] - 2.0; };
    Eigen::VectorXd start(1);
    start << 0.0;
    const LeastSquaresFit fit = least_squares(residuals, start, 1);
    CHECK(fit.value[0] == Approx(2.0));
    CHECK(fit.residual_variance() == 0.0);
}
