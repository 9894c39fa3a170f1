#include "series/axis_ticks.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace podrate;
using namespace podrate::ui;

namespace {

// 2025-06-27 00:00 UTC.
constexpr TimeUs kJune = TimeUs{1750982400} * kSecondUs;

std::string labels(const TimeRange& range, TimeUs origin_us, const char* zone, int most) {
    std::string all;
    for (const TimeTick& tick : time_ticks(range, origin_us, zone, most)) all += tick.label + ' ';
    return all;
}

}  // namespace

TEST_CASE("Ticks of time stand at round times of the local clock") {
    constexpr double kHour = 3600e3;
    CHECK(labels({14 * kHour, 20 * kHour}, kJune, "Etc/UTC", 8) == "14:00 15:00 16:00 17:00 18:00 19:00 ");
    CHECK(labels({14 * kHour, 20 * kHour}, kJune, "Europe/London", 8) ==
          "15:00 16:00 17:00 18:00 19:00 20:00 ");
    // A zone that is 5:45 ahead: hours are at a quarter past by UTC.
    CHECK(labels({14 * kHour, 20 * kHour}, kJune, "Asia/Kathmandu", 8) ==
          "20:00 21:00 22:00 23:00 00:00 01:00 ");
    CHECK(labels({14 * kHour, 14 * kHour + 90e3}, kJune, "Etc/UTC", 8) ==
          "14:00:00 14:00:15 14:00:30 14:00:45 14:01:00 14:01:15 ");
    CHECK(labels({14 * kHour, 14 * kHour + 1e3}, kJune, "Etc/UTC", 6) ==
          "14:00:00.0 14:00:00.2 14:00:00.4 14:00:00.6 14:00:00.8 ");
    CHECK(labels({0.0, 24 * kHour}, kJune, "Etc/UTC", 9) ==
          "00:00 03:00 06:00 09:00 12:00 15:00 18:00 21:00 ");
}

TEST_CASE("A tick says the time it stands at, from whatever origin") {
    const TimeUs origin_us = kJune + 1234567000;  // 00:20:34.567
    for (const TimeTick& tick : time_ticks({0.0, 3600e3}, origin_us, "Etc/UTC", 10)) {
        const auto at_us = origin_us + static_cast<TimeUs>(tick.at_ms * 1000.0);
        CHECK(at_us % (600 * kSecondUs) == 0);
    }
}

// Clocks of London go from 1:00 to 2:00 on 2025-03-30 and from 2:00 to 1:00 on 2025-10-26, at 1:00 UTC.
TEST_CASE("Where the clock is put forward or back ticks keep to round times") {
    constexpr TimeUs kMarch = TimeUs{1743292800} * kSecondUs;
    constexpr TimeUs kOctober = TimeUs{1761436800} * kSecondUs;
    constexpr double kHour = 3600e3;
    CHECK(labels({0.0, 4 * kHour}, kMarch, "Europe/London", 6) == "00:00 02:00 03:00 04:00 ");
    CHECK(labels({0.0, 10 * kHour}, kMarch, "Europe/London", 7) == "00:00 02:00 04:00 06:00 08:00 10:00 ");
    CHECK(labels({0.0, 4 * kHour}, kOctober, "Europe/London", 6) == "01:00 01:00 02:00 03:00 ");
    CHECK(labels({-kHour, 9 * kHour}, kOctober, "Europe/London", 6) == "00:00 02:00 04:00 06:00 08:00 ");
}

TEST_CASE("There are never more ticks of time than find room and at least one on wide charts") {
    std::mt19937 random(5);
    for (int i = 0; i < 2000; ++i) {
        const double span = std::exp2(std::uniform_real_distribution<double>(10.0, 27.0)(random));
        const double from = std::uniform_real_distribution<double>(0.0, 80e6)(random);
        const int most = 3 + static_cast<int>(random() % 15);
        const auto ticks = time_ticks({from, from + span}, kJune, "Europe/London", most);
        INFO(span << " ms, " << most);
        CHECK(static_cast<int>(ticks.size()) <= most);
        if (most >= 6) CHECK(ticks.size() >= 2);
        for (std::size_t t = 0; t < ticks.size(); ++t) {
            CHECK(ticks[t].at_ms >= from - 1e-3);
            CHECK(ticks[t].at_ms < from + span);
            if (t > 0) CHECK(ticks[t].at_ms > ticks[t - 1].at_ms);
        }
    }
}

TEST_CASE("Value axes have steps of 1 or 2 or 5 times a power of ten and hold all values") {
    const ValueAxis rate = value_axis({0.3F, 11.2F}, true, 0.1, 7);
    CHECK(rate.low == 0.0);
    CHECK(rate.high == 12.0);
    CHECK(rate.step == 2.0);
    CHECK(rate.decimals == 0);
    CHECK(rate.ticks() == 7);
    const ValueAxis tilt = value_axis({-0.42F, 0.31F}, false, 0.1, 7);
    CHECK(tilt.step == Approx(0.2));
    CHECK(tilt.decimals == 1);
    std::mt19937 random(9);
    for (int i = 0; i < 5000; ++i) {
        Extent values;
        for (int v = 0; v < 2; ++v) {
            const float size = std::exp2(std::uniform_real_distribution<float>(-12.0F, 40.0F)(random));
            const float value = random() % 2 == 0 ? size : -size;
            values.take({value, value});
        }
        const bool from_zero = random() % 2 == 0;
        const int most = 3 + static_cast<int>(random() % 8);
        const ValueAxis axis = value_axis(values, from_zero, 1e-4, most);
        INFO(values.low << " to " << values.high << ", " << most);
        CHECK(axis.low <= static_cast<double>(values.low) + 1e-9 * axis.step);
        CHECK(axis.high >= static_cast<double>(values.high) - 1e-9 * axis.step);
        if (from_zero) CHECK((axis.low <= 0.0 && axis.high >= 0.0));
        CHECK(axis.ticks() <= most);
        CHECK(axis.ticks() >= 2);
        const double digit = axis.step / std::pow(10.0, std::floor(std::log10(axis.step) + 1e-9));
        CHECK((digit == Approx(1.0) || digit == Approx(2.0) || digit == Approx(5.0)));
    }
}

TEST_CASE("An axis of nothing or of one value has room") {
    CHECK(value_axis({}, false, 0.4, 5).high > value_axis({}, false, 0.4, 5).low);
    for (const float value : {0.0F, 7.0F, -7.0F, 1e6F}) {
        const ValueAxis axis = value_axis({value, value}, false, 0.4, 5);
        INFO(value);
        CHECK(axis.low < static_cast<double>(value));
        CHECK(axis.high > static_cast<double>(value));
    }
    CHECK(value_axis({0.0F, 0.0F}, true, 0.4, 5).low == 0.0);
    CHECK(value_axis({0.0F, 0.0F}, true, 0.4, 5).high == Approx(0.4));
    CHECK(value_axis({-3.0F, -3.0F}, true, 4.0, 5).low <= -3.0);
}
