// The cumulative sum against its recursion, and its run lengths against published ones.
#include "podrate/alarm/cusum.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

#include "core/normals.hpp"

using namespace podrate;
using test::Normals;

namespace {

struct Measured {
    double mean;
    double standard_error;
};

// Mean number of values until the first alarm of one side, or of either.
Measured run_length(double shift, double h, bool both_sides, int runs, std::uint32_t seed) {
    Normals normals(seed);
    double sum = 0.0;
    double sum_of_squares = 0.0;
    for (int run = 0; run < runs; ++run) {
        Cusum up(Real(0.5), static_cast<Real>(h));
        Cusum down(Real(0.5), static_cast<Real>(h));
        double length = 0.0;
        for (bool over = false; !over; ++length) {
            const Real x = static_cast<Real>(shift + normals.next());
            const bool over_up = up.add(x);
            over = over_up || (both_sides && down.add(-x));
        }
        sum += length;
        sum_of_squares += length * length;
    }
    const double mean = sum / runs;
    return {mean, std::sqrt((sum_of_squares / runs - mean * mean) / runs)};
}

double siegmund(double shift, double k, double h) {
    const double drift = shift - k;
    const double b = h + 1.166;
    if (drift == 0.0) return b * b;
    return (std::exp(-2.0 * drift * b) + 2.0 * drift * b - 1.0) / (2.0 * drift * drift);
}

double siegmund_both(double shift, double k, double h) {
    return 1.0 / (1.0 / siegmund(shift, k, h) + 1.0 / siegmund(-shift, k, h));
}

// R, package spc, k = 0.5.
struct RunLengths {
    double h;
    double shift;
    double two_sided;
    double siegmund_within;  // share
};
constexpr RunLengths kTwoSided[] = {
    {4.0, 0.0, 167.6838, 0.01}, {4.0, 0.5, 26.6302, 0.01}, {4.0, 1.0, 8.3831, 0.01},
    {4.0, 2.0, 3.3428, 0.04},   {4.0, 3.0, 2.1945, 0.10},  {5.0, 0.0, 465.4435, 0.01},
    {5.0, 0.5, 37.9961, 0.01},  {5.0, 1.0, 10.3760, 0.01}, {5.0, 2.0, 4.0089, 0.04},
    {5.0, 3.0, 2.5733, 0.08},
};

}  // namespace

TEST_CASE("The cumulative sum is Page's recursion") {
    // By hand, k = 0.5, h = 2.
    const struct {
        double x;
        double sum;
        bool over;
    } steps[] = {{0.25, 0.0, false}, {1.5, 1.0, false},  {-0.25, 0.25, false}, {-3.0, 0.0, false},
                 {2.5, 2.0, false},  {0.75, 2.25, true}, {0.0, 1.75, false},   {1.0, 2.25, true}};
    Cusum cusum(Real(0.5), Real(2));
    for (const auto& step : steps) {
        INFO("x " << step.x);
        CHECK(cusum.add(static_cast<Real>(step.x)) == step.over);
        CHECK(cusum.over() == step.over);
        CHECK(static_cast<double>(cusum.sum_sd()) == step.sum);
    }
    cusum.reset();
    CHECK_FALSE(cusum.over());
    CHECK(cusum.sum_sd() == Real(0));
}

TEST_CASE("After a long shift the cumulative sum comes back by itself") {
    Cusum cusum(Real(0.5), Real(4));
    for (int i = 0; i < 100000; ++i) cusum.add(Real(3));
    CHECK(cusum.sum_sd() == Real(8));
    int values = 0;
    while (cusum.over()) {
        cusum.add(Real(0));
        ++values;
    }
    CHECK(values == 8);
}

TEST_CASE("What is not a number counts for nothing and infinity is borne") {
    Cusum cusum(Real(0.5), Real(4));
    cusum.add(Real(3));
    CHECK_FALSE(cusum.add(std::numeric_limits<Real>::quiet_NaN()));
    CHECK(cusum.sum_sd() == Real(2.5));
    CHECK(cusum.add(std::numeric_limits<Real>::infinity()));
    CHECK(cusum.sum_sd() == Real(8));
    CHECK_FALSE(cusum.add(-std::numeric_limits<Real>::infinity()));
    CHECK(cusum.sum_sd() == Real(0));
}

TEST_CASE("One side alone runs as long as published while nothing has shifted") {
    const Measured h4 = run_length(0.0, 4.0, false, 20000, 1);
    CHECK(h4.standard_error < 0.01 * h4.mean);
    CHECK(std::abs(h4.mean - 335.3676) < 4.0 * h4.standard_error);
    const Measured h5 = run_length(0.0, 5.0, false, 5000, 2);
    CHECK(h5.standard_error < 0.02 * h5.mean);
    CHECK(std::abs(h5.mean - 930.8870) < 4.0 * h5.standard_error);
}

TEST_CASE("Both sides together run as long as published") {
    std::uint32_t seed = 10;
    for (const RunLengths& row : kTwoSided) {
        INFO("h " << row.h << ", shift " << row.shift);
        const Measured measured =
            run_length(row.shift, row.h, true, row.shift == 0.0 ? 10000 : 40000, ++seed);
        INFO(measured.mean << " with standard error " << measured.standard_error);
        CHECK(measured.standard_error < 0.012 * row.two_sided);
        CHECK(std::abs(measured.mean - row.two_sided) < 4.0 * measured.standard_error);
    }
}

TEST_CASE("Siegmund's approximation of the run length is as near as it is said to be") {
    CHECK(siegmund(0.0, 0.5, 4.0) == Approx(335.3676).epsilon(0.01));
    CHECK(siegmund(0.0, 0.5, 5.0) == Approx(930.8870).epsilon(0.01));
    CHECK(siegmund(0.5, 0.5, 4.0) == Approx(26.6792).epsilon(0.01));
    for (const RunLengths& row : kTwoSided) {
        INFO("h " << row.h << ", shift " << row.shift);
        CHECK(siegmund_both(row.shift, 0.5, row.h) == Approx(row.two_sided).epsilon(row.siegmund_within));
    }
}
