// Degree days against published worked examples; the hours of a day.
#include <catch2/catch.hpp>

#include "maturity/heat_units.hpp"

using namespace podrate::sim;

namespace {

constexpr double kNoTop = 1000.0;

}  // namespace

TEST_CASE("Degree days by the mean are those of published worked examples") {
    // Oregon State University, Integrated Plant Protection Center, frequently asked questions (weafaq): "for
    // a MAX and MIN of 100 and 40, and TLOW of 50, we get ((100 + 40) / 2) - 50 or 70 - 50 = 20".
    CHECK(heat_units(HeatMethod::mean, 40, 100, 50, kNoTop) == Approx(20.0));
    // The same page, "lower threshold is substituted for the MIN ... upper threshold for the MAX ... of 86 we
    // get
    // ((86 + 50) / 2) - 50 or 68 - 50 = 18".
    CHECK(heat_units(HeatMethod::cut, 40, 100, 50, 86) == Approx(18.0));
    // University of California, IPM, "A simple way to calculate degree-days": 64 - 53 = 11 from the day's
    // average.
    CHECK(heat_units(HeatMethod::mean, 58, 70, 53, kNoTop) == Approx(11.0));
}

TEST_CASE("Degree days by a sine are those of published tables") {
    // University of California, package degday, worked example of its README: weather station Esparto.A, 1 to
    // 6 January 2020, degrees Fahrenheit, thresholds 55 and 93.9, column of the single sine, two decimals.
    const struct {
        double min;
        double max;
        double units;
    } days[] = {{38, 55, 0.00}, {36, 67, 3.31}, {33, 59, 0.68},
                {37, 59, 0.74}, {38, 63, 1.99}, {36, 58, 0.48}};
    for (const auto& day : days) {
        INFO(day.min << " to " << day.max);
        CHECK(heat_units(HeatMethod::sine, day.min, day.max, 55, 93.9) == Approx(day.units).margin(0.0051));
    }
    // TrenchR's reference page of degree_days(): 7 to 14 °C, thresholds 12 and 33 °C, single sine: 0.47.
    CHECK(heat_units(HeatMethod::sine, 7, 14, 12, 33) == Approx(0.47).margin(0.0051));
}

TEST_CASE("A sine's degree days are its integral above the base and below the top") {
    for (const double base : {4.4, 9.0, 14.0}) {
        for (const double top : {16.0, 20.0, 30.0}) {
            double sum = 0.0;
            constexpr int kParts = 200000;
            for (int i = 0; i < kParts; ++i) {
                const double c = 13.0 + 8.0 * std::sin(2.0 * M_PI * (i + 0.5) / kParts);
                sum += std::min(std::max(c, base), top) - base;
            }
            INFO(base << " to " << top);
            CHECK(heat_units(HeatMethod::sine, 5, 21, base, top) == Approx(sum / kParts).margin(1e-6));
        }
    }
}

TEST_CASE("Degree days are never below zero nor above what top and base allow") {
    for (const HeatMethod method : {HeatMethod::mean, HeatMethod::cut, HeatMethod::sine}) {
        CHECK(heat_units(method, -9, 2, 4.4, 30) == 0.0);
        CHECK(heat_units(method, 4.4, 4.4, 4.4, 30) == 0.0);
        CHECK(heat_units(method, 35, 45, 4.4, 30) == Approx(25.6));
        CHECK(heat_units(method, 10, 20, 4.4, 60) == Approx(10.6));
    }
    // The two readings of one equation part where the night is colder than the base.
    CHECK(heat_units(HeatMethod::mean, 0, 16, 4.4, 60) == Approx(3.6));
    CHECK(heat_units(HeatMethod::cut, 0, 16, 4.4, 60) == Approx(5.8));
}

TEST_CASE("A day's heat falls into its hours, most of it in the afternoon") {
    for (const double min : {-4.0, 3.0, 11.0}) {
        double sum = 0.0;
        double afternoon = 0.0;
        for (int hour = 0; hour < 24; ++hour) {
            const double share = heat_share_of_hour(hour, min, min + 11.0, 4.4);
            CHECK(share >= 0.0);
            sum += share;
            if (hour >= 12 && hour < 18) afternoon += share;
        }
        CHECK(sum == Approx(1.0));
        CHECK(afternoon > 0.3);
    }
    CHECK(heat_share_of_hour(14, 11, 22, 4.4) == Approx(heat_share_of_hour(15, 11, 22, 4.4)));
    CHECK(heat_share_of_hour(7, -20, -5, 4.4) == Approx(1.0 / 24.0));
}
