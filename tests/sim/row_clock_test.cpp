#include "synth/sense/row_clock.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace podrate::sim;

namespace {

std::vector<double> rows_of(double rate_hz, double jitter_s, int count) {
    ScenarioMachine machine;
    machine.id = "viner_1";
    machine.senses.rate_hz = rate_hz;
    machine.senses.jitter_s = jitter_s;
    RowClock clock(Scenario(), machine);
    std::vector<double> times;
    for (int i = 0; i < count; ++i) {
        times.push_back(clock.next_s());
        clock.advance();
    }
    return times;
}

}  // namespace

TEST_CASE("Rows of an even logger stand at whole periods and do not run away over a day") {
    for (const double rate_hz : {1.0, 7.5, 10.0, 50.0}) {
        INFO(rate_hz << " Hz");
        const auto day = static_cast<int>(std::lround(rate_hz * 86400.0));
        const std::vector<double> times = rows_of(rate_hz, 0.0, day + 1);
        CHECK(times[0] == 0.0);
        CHECK(times[1] == Approx(1.0 / rate_hz));
        CHECK(times[static_cast<std::size_t>(day)] == Approx(86400.0).epsilon(0.0).margin(1e-9));
    }
}

TEST_CASE("Jittered rows never change places and keep the rate") {
    for (const double rate_hz : {1.0, 7.5, 10.0, 50.0}) {
        for (const double jitter_s : {0.005, 0.05, 0.2}) {
            INFO(rate_hz << " Hz, " << jitter_s << " s");
            const std::vector<double> times = rows_of(rate_hz, jitter_s, 20000);
            double closest_s = 1e9;
            double farthest_off = 0.0;
            for (std::size_t i = 1; i < times.size(); ++i) {
                closest_s = std::min(closest_s, times[i] - times[i - 1]);
                farthest_off = std::max(farthest_off, std::abs(times[i] * rate_hz - static_cast<double>(i)));
            }
            CHECK(closest_s > 0.0);
            CHECK(farthest_off < 0.5);
        }
    }
}

TEST_CASE("A row's time is off by the told standard deviation and by no memory of the last") {
    constexpr int kRows = 50000;
    const std::vector<double> times = rows_of(1.0, 0.05, kRows);
    double sum = 0.0;
    double squares = 0.0;
    double neighbours = 0.0;
    double last = 0.0;
    for (int i = 1; i < kRows; ++i) {
        const double off_s = times[static_cast<std::size_t>(i)] - i;
        sum += off_s;
        squares += off_s * off_s;
        neighbours += off_s * last;
        last = off_s;
    }
    CHECK(sum / kRows == Approx(0.0).margin(5.0 * 0.05 / std::sqrt(kRows)));
    CHECK(std::sqrt(squares / kRows) == Approx(0.05).epsilon(5.0 / std::sqrt(2.0 * kRows)));
    CHECK(neighbours / squares == Approx(0.0).margin(5.0 / std::sqrt(kRows)));
}
