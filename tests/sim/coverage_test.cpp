#include "score/coverage.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "score/oiml.hpp"
#include "synth/random.hpp"

using namespace podrate::sim;

namespace {

// Five standard deviations of chance: with fixed seeds the outcome is fixed too, so these hold or do not.
constexpr double kSigmas = 5.0;

double from_logit(double x) {
    return 1.0 / (1.0 + std::exp(-x));
}

}  // namespace

TEST_CASE("The reach of each level is the normal distribution's") {
    for (std::size_t i = 0; i < Coverage::kLevels_pct.size(); ++i) {
        CHECK(100.0 * std::erf(Coverage::kReach_sd[i] / std::sqrt(2.0)) ==
              Approx(Coverage::kLevels_pct[i]).epsilon(1e-7));
    }
}

TEST_CASE("Errors that are normal with the stated spread lie inside as often as stated") {
    Random random(1, "coverage");
    Coverage coverage;
    constexpr int kMany = 100000;
    for (int i = 0; i < kMany; ++i) {
        const double sd = random.uniform(0.1, 5.0);
        coverage.add(sd * random.normal(), sd);
    }
    CHECK(coverage.count == kMany);
    for (std::size_t i = 0; i < 3; ++i) {
        const double share = Coverage::kLevels_pct[i] / 100.0;
        CHECK(coverage.pct(i) ==
              Approx(100.0 * share).margin(100.0 * kSigmas * std::sqrt(share * (1.0 - share) / kMany)));
    }
}

TEST_CASE("Spreads stated too wide or too narrow show") {
    Random random(2, "coverage");
    Coverage wide;
    Coverage narrow;
    for (int i = 0; i < 20000; ++i) {
        const double error = random.normal();
        wide.add(error, 2.0);
        narrow.add(error, 0.5);
    }
    // erf(1.645 * 2 / sqrt 2) and erf(1.645 / 2 / sqrt 2)
    CHECK(wide.pct(1) == Approx(99.9).margin(0.15));
    CHECK(narrow.pct(1) == Approx(58.9).margin(1.8));
}

TEST_CASE("An error on the very edge is inside and one beyond it is not") {
    Coverage coverage;
    coverage.add(-Coverage::kReach_sd[0], 1.0);
    CHECK(coverage.inside[0] == 1);
    coverage.add(0.6745, 1.0);
    CHECK(coverage.inside[0] == 1);
    CHECK(coverage.inside[1] == 2);
    coverage.add(0.0, 0.0);
    CHECK(coverage.inside[2] == 3);
    CHECK(coverage.count == 3);
}

TEST_CASE("What is not a number is never inside") {
    Coverage coverage;
    coverage.add(std::nan(""), 1.0);
    coverage.add(1.0, std::nan(""));
    CHECK(coverage.count == 2);
    CHECK(coverage.inside[2] == 0);
}

TEST_CASE("Coverages add up, and nothing covers nothing") {
    Coverage one;
    CHECK(one.pct(0) == 0.0);
    one.add(0.0, 1.0);
    one.add(1.8, 1.0);
    Coverage two;
    two.add(9.0, 1.0);
    two.add(1.0, 1.0);
    one.add(two);
    CHECK(one.count == 4);
    CHECK(one.pct(0) == Approx(25.0));
    CHECK(one.pct(1) == Approx(50.0));
    CHECK(one.pct(2) == Approx(75.0));
}

TEST_CASE("A share's interval ends where its 90 per cent end") {
    const auto inside = [](double truth) {
        Coverage coverage;
        coverage.add_share(truth, 0.06, 0.03, 0.15);
        return coverage.inside;
    };
    CHECK(inside(0.0301)[1] == 1);
    CHECK(inside(0.0299)[1] == 0);
    CHECK(inside(0.1499)[1] == 1);
    CHECK(inside(0.1501)[1] == 0);
    CHECK(inside(0.06)[0] == 1);
    // The other levels lie on the scale of ln(p/(1-p)), each side by its own reach.
    const auto logit = [](double share) { return std::log(share / (1.0 - share)); };
    const double up = (logit(0.15) - logit(0.06)) / Coverage::kReach_sd[1];
    const double down = (logit(0.06) - logit(0.03)) / Coverage::kReach_sd[1];
    CHECK(inside(from_logit(logit(0.06) + 0.67 * up))[0] == 1);
    CHECK(inside(from_logit(logit(0.06) + 0.68 * up))[0] == 0);
    CHECK(inside(from_logit(logit(0.06) - 0.67 * down))[0] == 1);
    CHECK(inside(from_logit(logit(0.06) - 0.68 * down))[0] == 0);
    CHECK(inside(from_logit(logit(0.06) + 1.95 * up))[2] == 1);
    CHECK(inside(from_logit(logit(0.06) + 1.97 * up))[2] == 0);
}

TEST_CASE("Shares drawn as their interval says lie inside as often as stated") {
    Random random(3, "shares");
    Coverage coverage;
    constexpr int kMany = 50000;
    for (int i = 0; i < kMany; ++i) {
        const double middle = random.uniform(-4.0, -1.0);
        const double sd = random.uniform(0.1, 0.6);
        const double reach = Coverage::kReach_sd[1] * sd;
        coverage.add_share(from_logit(middle + sd * random.normal()), from_logit(middle),
                           from_logit(middle - reach), from_logit(middle + reach));
    }
    for (std::size_t i = 0; i < 3; ++i) {
        const double share = Coverage::kLevels_pct[i] / 100.0;
        CHECK(coverage.pct(i) ==
              Approx(100.0 * share).margin(100.0 * kSigmas * std::sqrt(share * (1.0 - share) / kMany)));
    }
}

TEST_CASE("Shares of nothing and of all are taken as they are") {
    Coverage coverage;
    coverage.add_share(0.0, 0.05, 0.0, 0.1);
    CHECK(coverage.inside[1] == 1);
    coverage.add_share(0.0, 0.05, 0.01, 0.1);
    CHECK(coverage.inside[1] == 1);
    coverage.add_share(1.0, 0.05, 0.01, 0.1);
    CHECK(coverage.inside[1] == 1);
    CHECK(coverage.count == 3);
}

TEST_CASE("The classes of weighed totals are named by their limit in service, twice the initial one") {
    double last_pct = 0.0;
    for (const OimlLimit& limit : kOimlLimits) {
        CHECK(std::stod(limit.name) == limit.in_service_pct);
        CHECK(limit.in_service_pct == Approx(2.0 * limit.initial_pct));
        CHECK(limit.in_service_pct > last_pct);
        last_pct = limit.in_service_pct;
    }
}
