#include "podrate/time/millisecond_clock.hpp"

#include <catch2/catch.hpp>

using namespace podrate;

TEST_CASE("A counter of 32 bits goes on past its end") {
    MillisecondClock clock(1000);
    CHECK(clock.at(4294967000U) == 1000);  // whatever it shows at first
    TimeUs expected_us = 1000;
    std::uint32_t count = 4294967000U;
    // Three times round, in steps of 13 minutes.
    for (int i = 0; i < 16520; ++i) {
        count += 780000U;
        expected_us += 780000000;
        REQUIRE(clock.at(count) == expected_us);
    }
    CHECK(expected_us > 3 * (TimeUs{1} << 32) * 1000 - kSecondUs * 3600);
}

TEST_CASE("A count read out of turn does not throw the clock ahead") {
    MillisecondClock clock(0);
    clock.at(10);
    CHECK(clock.at(20) == 10000);
    CHECK(clock.at(19) == 10000);
    CHECK(clock.at(20) == 10000);
    CHECK(clock.at(21) == 11000);
    // Just short of half round is the longest step.
    CHECK(clock.at(21 + 0x7FFFFFFFU) == 11000 + TimeUs{0x7FFFFFFF} * 1000);
}
