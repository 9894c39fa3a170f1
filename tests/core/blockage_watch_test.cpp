#include "podrate/alarm/blockage_watch.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/normals.hpp"

using namespace podrate;
using test::Normals;

namespace {

constexpr double kK = 0.75;  // sd

// One block in one reading, `off_sd` standard deviations from what was expected.
void add_block(BlockageWatch& watch, double off_sd) {
    constexpr double kSd = 5.0;
    watch.add(Real(2), {static_cast<Real>(kSd * off_sd), static_cast<Real>(kSd * kSd)}, Real(9));
}

double siegmund(double drift, double limit) {
    const double b = limit + 1.166;
    return (std::exp(-2.0 * drift * b) + 2.0 * drift * b - 1.0) / (2.0 * drift * drift);
}

// Mean number of blocks until the sum first passes the limit, and its standard error.
struct RunLength {
    double mean;
    double standard_error;
};

RunLength run_length(double limit, double shift_sd, int runs, std::uint32_t seed) {
    Normals normals(seed);
    double sum = 0.0;
    double squares = 0.0;
    for (int run = 0; run < runs; ++run) {
        BlockageWatch watch(static_cast<Real>(limit));
        double blocks = 0.0;
        while (watch.sum_sd() <= static_cast<Real>(limit)) {
            add_block(watch, normals.next() - shift_sd);
            ++blocks;
        }
        sum += blocks;
        squares += blocks * blocks;
    }
    const double mean = sum / runs;
    return {mean, std::sqrt((squares / runs - mean * mean) / runs)};
}

}  // namespace

TEST_CASE("Independent innovations raise a false alarm as seldom as Siegmund's formula says") {
    for (const double limit : {2.0, 3.0}) {
        INFO("limit " << limit);
        const RunLength measured = run_length(limit, 0.0, 4000, 50);
        const double expected = siegmund(-kK, limit);
        INFO(measured.mean << " +- " << measured.standard_error << " blocks, " << expected << " expected");
        CHECK(measured.standard_error < 0.02 * expected);
        CHECK(measured.mean == Approx(expected).epsilon(0.05));
    }
}

TEST_CASE("A flow that falls short by twice k is found within ten blocks or so") {
    const RunLength measured = run_length(6.0, 2.0 * kK, 4000, 60);
    CHECK(measured.mean == Approx(siegmund(kK, 6.0)).epsilon(0.05));
    CHECK(measured.mean < 10.0);
}

TEST_CASE("A block is judged against its own doubt: the state's whole, the readings' noise by their number") {
    // 20 readings of one block, state variance 4 and noise 36 kg2: the mean's variance is 4 + 36 / 20.
    BlockageWatch watch(Real(6));
    for (int i = 0; i < 20; ++i) {
        CHECK(watch.sum_sd() == Real(0));
        watch.add(Real(0.1), {Real(i % 2 == 0 ? -9 : -1), Real(40)}, Real(36));
    }
    CHECK(static_cast<double>(watch.sum_sd()) ==
          Approx(5.0 / std::sqrt(4.0 + 36.0 / 20.0) - kK).epsilon(1e-4));
}

TEST_CASE("More than expected never adds up to a blockage") {
    BlockageWatch watch(Real(6));
    for (int i = 0; i < 1000; ++i) add_block(watch, 3.0);
    CHECK(watch.sum_sd() == Real(0));
    // Nor does it hide one: the sum begins at nothing.
    int blocks = 0;
    for (; watch.sum_sd() <= Real(6); ++blocks) add_block(watch, -2.0);
    CHECK(blocks == 5);
}

TEST_CASE("One wild block alone is no blockage") {
    BlockageWatch watch(Real(6));
    add_block(watch, -1000.0);
    CHECK(static_cast<double>(watch.sum_sd()) == Approx(5.0 - kK));
    for (int i = 0; i < 10; ++i) add_block(watch, 0.0);
    CHECK(watch.sum_sd() == Real(0));
}

TEST_CASE("After a long blockage the sum is no more than twice its limit") {
    BlockageWatch watch(Real(6));
    for (int i = 0; i < 1000; ++i) add_block(watch, -4.0);
    CHECK(watch.sum_sd() == Real(12));
}

TEST_CASE("A reset forgets the sum and the block begun") {
    BlockageWatch watch(Real(6));
    for (int i = 0; i < 5; ++i) add_block(watch, -2.0);
    watch.add(Real(1.5), {Real(-500), Real(25)}, Real(9));
    REQUIRE(watch.sum_sd() > Real(4));
    watch.reset();
    CHECK(watch.sum_sd() == Real(0));
    watch.add(Real(1), {Real(-10), Real(25)}, Real(0));
    CHECK(watch.sum_sd() == Real(0));
    watch.reset();
    add_block(watch, -2.0);
    CHECK(static_cast<double>(watch.sum_sd()) == Approx(2.0 - kK));
}
