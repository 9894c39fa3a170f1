// The clock that peas ripen by.
#include <catch2/catch.hpp>

#include "day/calendar.hpp"
#include "maturity/heat_clock.hpp"

using namespace podrate::sim;

namespace {

constexpr double kMidnight = 1750982400.0;  // 27 June 2025, 00:00 UTC
constexpr double kDay = 86400.0;

// 10, 11, 12, ... heat units a day from 27 June on.
std::vector<WeatherDay> warming(int days) {
    std::vector<WeatherDay> weather;
    for (int i = 0; i < days; ++i) weather.push_back({*day_number("2025-06-27") + i, 8.4 + i, 20.4 + i});
    return weather;
}

}  // namespace

TEST_CASE("Dates are days since 1970 and back, and no other text is one") {
    CHECK(day_number("1970-01-01") == 0L);
    CHECK(day_number("2025-06-27") == 20266L);  // 1750982400 / 86400
    CHECK(day_number("2024-02-29").has_value());
    for (const char* text :
         {"2025-02-29", "2025-13-01", "2025-6-27", "27.06.2025", "", "2025-06-2x", "1600-01-01"}) {
        INFO(text);
        CHECK_FALSE(day_number(text).has_value());
    }
    for (const long day : {0L, 20266L, 19782L, 20453L}) CHECK(day_number(date_of_day(day)) == day);
    CHECK(date_of_day(20266) == "2025-06-27");
}

TEST_CASE("The clock gains each day's heat units") {
    const HeatClock clock(warming(4), {}, "Etc/UTC", kMidnight, kMidnight + 4 * kDay, kMidnight + 10 * kDay);
    CHECK(clock.by_heat());
    CHECK(clock.at(kMidnight) == 0.0);
    CHECK(clock.at(kMidnight + kDay) == Approx(10.0));
    CHECK(clock.at(kMidnight + 2 * kDay) == Approx(21.0));
    CHECK(clock.at(kMidnight + 4 * kDay) == Approx(46.0));
    CHECK(clock.at(kMidnight - kDay) == 0.0);
    CHECK(clock.at(kMidnight + 40 * kDay) == Approx(46.0));
    // Mornings are cool: by noon less than half, by six in the evening more than two thirds.
    CHECK(clock.at(kMidnight + 0.5 * kDay) < 4.5);
    CHECK(clock.at(kMidnight + 0.75 * kDay) > 6.7);
    CHECK(clock.variance_at(kMidnight + 4 * kDay) == 0.0);
}

TEST_CASE("A local day is the time zone's") {
    const HeatClock clock(warming(3), {}, "America/Halifax", kMidnight + 3 * 3600.0, kMidnight + 3 * kDay,
                          kMidnight + 10 * kDay);
    CHECK(clock.at(kMidnight + 3 * 3600.0 + kDay) == Approx(10.0));
    CHECK(clock.at(kMidnight + 3 * 3600.0 + 2 * kDay) == Approx(21.0));
}

TEST_CASE("Days that nobody told are filled from those about") {
    std::vector<WeatherDay> gap = warming(3);
    gap.erase(gap.begin() + 1);
    const HeatClock clock(gap, {}, "Etc/UTC", kMidnight - kDay, kMidnight + 5 * kDay, kMidnight + 10 * kDay);
    CHECK(clock.at(kMidnight) == Approx(10.0));             // as the first
    CHECK(clock.at(kMidnight + 2 * kDay) == Approx(31.0));  // between 10 and 12
    CHECK(clock.at(kMidnight + 5 * kDay) == Approx(65.0));  // 12 more, then the mean of what was told
}

TEST_CASE("What is not known of the weather grows ahead, more where nobody forecast") {
    const HeatClock clock(warming(3), {}, "Etc/UTC", kMidnight, kMidnight + 5 * kDay, kMidnight + kDay);
    CHECK(clock.variance_at(kMidnight + kDay) == 0.0);
    CHECK(clock.variance_at(kMidnight + 2 * kDay) == Approx(1.5 * 1.5));
    CHECK(clock.variance_at(kMidnight + 3 * kDay) == Approx(2 * 1.5 * 1.5));
    CHECK(clock.variance_at(kMidnight + 5 * kDay) == Approx(2 * 1.5 * 1.5 + 2 * 3.0 * 3.0));
}

TEST_CASE("Without weather the clock counts days") {
    const HeatClock clock({}, {}, "Etc/UTC", kMidnight, kMidnight + 9 * kDay, kMidnight);
    CHECK_FALSE(clock.by_heat());
    CHECK(clock.at(kMidnight + 7.5 * kDay) == Approx(7.5));
    CHECK(clock.variance_at(kMidnight + 7.5 * kDay) == 0.0);
}

TEST_CASE("Heat units since sowing need each day to be told") {
    const long first = *day_number("2025-06-27");
    std::vector<WeatherDay> weather = warming(4);
    CHECK(*heat_since_sowing(weather, {}, first, first + 3) == Approx(33.0));
    CHECK(*heat_since_sowing(weather, {}, first, first) == 0.0);
    CHECK_FALSE(heat_since_sowing(weather, {}, first - 1, first + 3).has_value());
    CHECK_FALSE(heat_since_sowing(weather, {}, first, first + 5).has_value());
    CHECK_FALSE(heat_since_sowing({}, {}, first, first + 3).has_value());
    CHECK_FALSE(heat_since_sowing(weather, {}, first + 3, first).has_value());
    weather.erase(weather.begin() + 1);
    CHECK_FALSE(heat_since_sowing(weather, {}, first, first + 3).has_value());
}
