// Steady state of [mass, rate], in closed form. Formula: Kalata (1984), The tracking index, IEEE Trans.
// Aerosp. Electron. Syst. 20: 174-182, from memory; the values agree with scipy's Riccati solver to 12
// digits.
#include <catch2/catch.hpp>
#include <cmath>

#include "podrate/filter/kalman.hpp"

using namespace podrate;

namespace {

struct Steady {
    double alpha;
    double beta;
    double p11;
    double p12;
    double p22;
};

// Runs until nothing changes any more. Q = diag(q1, q2) a step.
Steady run(double step_s, double q1, double q2, double r) {
    Gaussian<double, 2> belief;
    belief.covariance = 100.0 * r * Square<double, 2>::Identity();
    Square<double, 2> step;
    step << 1.0, step_s, 0.0, 1.0;
    Vector<double, 2> noise;
    noise << q1, q2;
    Steady steady{};
    for (int i = 0; i < 20000; ++i) {
        predict_covariance(belief, step, noise);
        const double s = belief.covariance(0, 0) + r;
        steady.alpha = belief.covariance(0, 0) / s;
        steady.beta = belief.covariance(1, 0) / s * step_s;
        update_scalar(belief, 0, 0.0, r);
    }
    steady.p11 = belief.covariance(0, 0);
    steady.p12 = belief.covariance(0, 1);
    steady.p22 = belief.covariance(1, 1);
    return steady;
}

// Kalata's own model, T = R = 1: an acceleration of standard deviation `index`, constant over each step. It
// is a third state here, drawn anew each step, since noise enters on the diagonal only.
Steady run_random_acceleration(double index) {
    Gaussian<double, 3> belief;
    belief.covariance = 100.0 * Square<double, 3>::Identity();
    Square<double, 3> step;
    step << 1.0, 1.0, 0.5, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0;
    Vector<double, 3> noise;
    noise << 0.0, 0.0, index * index;
    Steady steady{};
    for (int i = 0; i < 20000; ++i) {
        predict_covariance(belief, step, noise);
        const double s = belief.covariance(0, 0) + 1.0;
        steady.alpha = belief.covariance(0, 0) / s;
        steady.beta = belief.covariance(1, 0) / s;
        update_scalar(belief, 0, 0.0, 1.0);
    }
    steady.p22 = belief.covariance(1, 1);
    return steady;
}

struct ClosedForm {
    double alpha;
    double beta;
};

ClosedForm closed_form(double step_s, double q1, double q2, double r) {
    const double lambda = step_s * std::sqrt(q2 / r);
    const double kappa = q1 / r;
    const double s = (lambda + std::sqrt(lambda * lambda + 16.0 + 4.0 * kappa)) / 2.0;
    const double rho = (s - std::sqrt(s * s - 4.0)) / 2.0;
    return {1.0 - rho * rho, lambda * rho};
}

}  // namespace

TEST_CASE("The steady state agrees with the tracking index table") {
    const struct {
        double index;
        double alpha;
        double beta;
        double p22;
    } table[] = {
        {0.01, 0.1318509913, 0.0093174514, 0.00136509717},
        {0.1, 0.36, 0.08, 0.04},
        {1.0, 0.75, 0.5, 1.0},
        {10.0, 0.9787137637, 1.4589803375, 17.08203932},
    };
    for (const auto& row : table) {
        INFO("index " << row.index);
        const Steady steady = run_random_acceleration(row.index);
        // The table has ten digits.
        CHECK(steady.alpha == Approx(row.alpha).epsilon(5e-10));
        CHECK(steady.beta == Approx(row.beta).epsilon(1e-8));
        CHECK(steady.p22 == Approx(row.p22).epsilon(5e-9));
    }
}

TEST_CASE("The worked case of a hopper weighed at 10 Hz agrees") {
    const Steady steady = run(0.1, 0.0, 0.009, 9.0);
    CHECK(steady.alpha == Approx(0.076456657665).epsilon(1e-9));
    CHECK(steady.beta == Approx(0.003038985591).epsilon(1e-9));
    CHECK(steady.p22 == Approx(0.226427503).epsilon(1e-8));
}

TEST_CASE("The steady state with noise on the mass agrees with its closed form") {
    for (const double q1 : {1e-4, 0.1, 4.0}) {
        INFO("q1 " << q1);
        const double r = 2.5;
        const double step_s = 0.2;
        const Steady steady = run(step_s, q1, 0.03, r);
        const ClosedForm form = closed_form(step_s, q1, 0.03, r);
        CHECK(steady.alpha == Approx(form.alpha).epsilon(1e-9));
        CHECK(steady.beta == Approx(form.beta).epsilon(1e-9));
        CHECK(steady.p11 == Approx(form.alpha * r).epsilon(1e-9));
        CHECK(steady.p12 == Approx(form.beta * r / step_s).epsilon(1e-9));
        const double p22 = form.beta * r / (step_s * step_s) * (1.0 / (1.0 - form.alpha) - 1.0);
        CHECK(steady.p22 == Approx(p22).epsilon(1e-9));
    }
}

TEST_CASE("Fine steps come to the limit of continuous time") {
    // P11 = sqrt 2 q^1/4 r^3/4, P12 = sqrt(q r), P22 = sqrt 2 q^3/4 r^1/4 for densities q and r.
    const double q = 0.05;
    const double r = 3.0;
    const double step_s = 1e-3;
    const Steady steady = run(step_s, 0.0, q * step_s, r / step_s);
    const double root2 = std::sqrt(2.0);
    CHECK(steady.p11 == Approx(root2 * std::pow(q, 0.25) * std::pow(r, 0.75)).epsilon(1e-3));
    CHECK(steady.p12 == Approx(std::sqrt(q * r)).epsilon(1e-3));
    CHECK(steady.p22 == Approx(root2 * std::pow(q, 0.75) * std::pow(r, 0.25)).epsilon(1e-3));
}
