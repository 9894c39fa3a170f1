#include "model/clock_text.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr TimeUs kJune = 1751032800 * kSecondUs;     // 2025-06-27T14:00:00Z, by `date -u -d @1751032800`
constexpr TimeUs kJanuary = 1736949600 * kSecondUs;  // 2025-01-15T14:00:00Z

}  // namespace

TEST_CASE("Clocks follow the day's time zone and its summer time") {
    CHECK(clock_text(kJune, "Etc/UTC", true) == "14:00:00");
    CHECK(clock_text(kJune, "Europe/London", false) == "15:00");
    CHECK(clock_text(kJanuary, "Europe/London", false) == "14:00");
    CHECK(clock_text(kJune, "Pacific/Auckland", false) == "02:00");
    CHECK(clock_text(kJune, "Nowhere/Atall", false) == "14:00");  // unknown: UTC
}

TEST_CASE("Times typed in are read on the day's own clock") {
    CHECK(parse_clock("15:30", "Europe/London", kJune) == kJune + 1800 * kSecondUs);
    CHECK(parse_clock("15:30:05", "Europe/London", kJune) == kJune + 1805 * kSecondUs);
    CHECK(parse_clock("1751032860", "Europe/London", kJune) == kJune + 60 * kSecondUs);
    // Before the day's first moment: meant for the next morning.
    CHECK(parse_clock("01:00", "Europe/London", kJune) == kJune + 10 * 3600 * kSecondUs);
    for (const char* nonsense :
         {"", "25:00", "12:60", "12:00:61", "noon", "12:", "12:00x", "-5", "1e99", "12:00:00:00"}) {
        INFO(nonsense);
        CHECK_FALSE(parse_clock(nonsense, "Europe/London", kJune).has_value());
    }
}
