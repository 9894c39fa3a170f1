// The filter's sparing forms of prediction and update against the textbook's dense ones.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/least_eigenvalue.hpp"
#include "core/normals.hpp"
#include "podrate/filter/kalman.hpp"

using namespace podrate;
using test::Normals;

namespace {

constexpr int kStates = 10;
constexpr int kMoving = 3;

template <class T>
using Wide = Square<T, kStates>;

template <class T, int Rows, int Cols>
Eigen::Matrix<T, Rows, Cols> random_matrix(Normals& normals) {
    Eigen::Matrix<T, Rows, Cols> matrix;
    for (int i = 0; i < Rows; ++i)
        for (int j = 0; j < Cols; ++j) matrix(i, j) = static_cast<T>(normals.next());
    return matrix;
}

template <class T>
Gaussian<T, kStates> random_belief(Normals& normals) {
    Gaussian<T, kStates> belief;
    const auto root = random_matrix<T, kStates, kStates>(normals);
    belief.mean = random_matrix<T, kStates, 1>(normals);
    belief.covariance = root * root.transpose() / T(kStates);
    belief.symmetrise();
    return belief;
}

template <class T>
Vector<T, kStates> random_noise(Normals& normals) {
    Vector<T, kStates> noise;
    for (int i = 0; i < kStates; ++i) noise(i) = static_cast<T>(normals.uniform());
    return noise;
}

// Largest difference, as a share of the largest entry.
template <class T>
double apart(const Wide<T>& a, const Wide<double>& b) {
    return (a.template cast<double>() - b).cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
}

// Over 1000 random cases.
template <class T>
double worst_prediction() {
    Normals normals(1);
    double worst = 0.0;
    for (int i = 0; i < 1000; ++i) {
        Gaussian<T, kStates> belief = random_belief<T>(normals);
        const Vector<T, kStates> mean = belief.mean;
        const auto moving = random_matrix<T, kMoving, kStates>(normals);
        const Vector<T, kStates> noise = random_noise<T>(normals);
        Wide<double> jacobian = Wide<double>::Identity();
        jacobian.topRows<kMoving>() = moving.template cast<double>();
        const Wide<double> dense =
            jacobian * belief.covariance.template cast<double>() * jacobian.transpose() +
            Wide<double>(noise.template cast<double>().asDiagonal());
        predict_covariance(belief, moving, noise);
        worst = std::max(worst, apart(belief.covariance, dense));
        REQUIRE((belief.covariance == belief.covariance.transpose()));
        REQUIRE((belief.mean == mean));
    }
    return worst;
}

template <class T>
double worst_update() {
    Normals normals(2);
    double worst = 0.0;
    for (int i = 0; i < 1000; ++i) {
        Gaussian<T, kStates> belief = random_belief<T>(normals);
        const Vector<T, kStates> h = random_matrix<T, kStates, 1>(normals);
        const T residual = static_cast<T>(normals.next());
        const T noise = static_cast<T>(normals.between(0.1, 2.0));
        const Wide<double> p = belief.covariance.template cast<double>();
        const Vector<double, kStates> wide_h = h.template cast<double>();
        const double variance = wide_h.dot(p * wide_h) + static_cast<double>(noise);
        const Vector<double, kStates> gain = p * wide_h / variance;
        const Wide<double> left = Wide<double>::Identity() - gain * wide_h.transpose();
        const Wide<double> joseph =
            left * p * left.transpose() + static_cast<double>(noise) * gain * gain.transpose();
        const Vector<double, kStates> mean =
            belief.mean.template cast<double>() + gain * static_cast<double>(residual);
        update_linear(belief, h, residual, noise);
        worst = std::max(worst, apart(belief.covariance, joseph));
        worst = std::max(worst, (belief.mean.template cast<double>() - mean).cwiseAbs().maxCoeff());
        REQUIRE((belief.covariance == belief.covariance.transpose()));
    }
    return worst;
}

}  // namespace

TEST_CASE("A prediction that moves three rows is the dense one") {
    CHECK(worst_prediction<double>() < 1e-12);
    // Ten products and sums of rounded numbers: a few units in the seventh place.
    CHECK(worst_prediction<float>() < 5e-7);
}

TEST_CASE("An update by a row of numbers is Joseph's dense form") {
    CHECK(worst_update<double>() < 1e-12);
    CHECK(worst_update<float>() < 1e-6);
}

TEST_CASE("Measuring one state is measuring by a row with a single one") {
    Normals normals(3);
    for (int i = 0; i < 100; ++i) {
        Gaussian<double, kStates> one = random_belief<double>(normals);
        Gaussian<double, kStates> other = one;
        const int row = i % kStates;
        Vector<double, kStates> h = Vector<double, kStates>::Zero();
        h(row) = 1.0;
        const double measured = normals.next();
        update_scalar(one, row, measured, 0.3);
        update_linear(other, h, measured - other.mean(row), 0.3);
        CHECK((one.mean - other.mean).cwiseAbs().maxCoeff() < 1e-13);
        CHECK((one.covariance - other.covariance).cwiseAbs().maxCoeff() < 1e-13);
    }
}

TEST_CASE("A float covariance stays symmetric and positive over 100,000 random steps") {
    Normals normals(4);
    Gaussian<float, kStates> belief = random_belief<float>(normals);
    for (long step = 0; step < 100000; ++step) {
        // Three rows shrink and mix, so that nothing grows without end; the rest only wander.
        Eigen::Matrix<float, kMoving, kStates> moving =
            random_matrix<float, kMoving, kStates>(normals) * 0.1F;
        for (int i = 0; i < kMoving; ++i) moving(i, i) = static_cast<float>(normals.between(0.7, 0.99));
        predict_covariance(belief, moving, Vector<float, kStates>(random_noise<float>(normals) * 1e-4F));
        Vector<float, kStates> h = random_matrix<float, kStates, 1>(normals);
        // From a sharp reading to one that says next to nothing.
        const auto noise = static_cast<float>(std::exp(normals.between(-9.0, 5.0)));
        update_linear(belief, h, static_cast<float>(normals.next()), noise);
        if (step % 100 != 0) continue;
        INFO("step " << step);
        REQUIRE((belief.covariance == belief.covariance.transpose()));
        REQUIRE(belief.covariance.allFinite());
        REQUIRE(test::least_eigenvalue(belief.covariance) > 0.0);
    }
}
