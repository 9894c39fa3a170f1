// Times: of frames, of day, going back, and told twice.
#include <catch2/catch.hpp>
#include <cstdio>
#include <limits>

#include "core/frames.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::frame_of;

namespace {

// 126992 or 129033 of a day since 1970 and 0.0001 s of it.
std::string system_time(unsigned day, unsigned long time, int source = 0) {
    char text[40];
    std::snprintf(text, sizeof text, "0DF0101C#01%02X%02X%02X%02lX%02lX%02lX%02lX", 0xF0 | source, day & 0xFF,
                  day >> 8, time & 0xFF, (time >> 8) & 0xFF, (time >> 16) & 0xFF, time >> 24);
    return text;
}

std::string time_date(unsigned day, unsigned long time) {
    char text[40];
    std::snprintf(text, sizeof text, "0DF8091D#%02X%02X%02lX%02lX%02lX%02lX3C00", day & 0xFF, day >> 8,
                  time & 0xFF, (time >> 8) & 0xFF, (time >> 16) & 0xFF, time >> 24);
    return text;
}

constexpr unsigned kDay = 19905;  // 2024-07-01
constexpr TimeUs kMidnightUs = 19905 * kDayUs;
constexpr TimeUs kFrameUs = 5 * kSecondUs;

}  // namespace

TEST_CASE("A frame older than one taken before does nothing") {
    BusDecoder decoder;
    CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", 1000)) == FrameResult::taken);
    CHECK(decoder.take(frame_of("09F8011C#41DD4A1FE04341FF", 999)) == FrameResult::time_back);
    CHECK(decoder.sample_count() == 0);
    CHECK(decoder.take(frame_of("09F8011C#41DD4A1FE04341FF", 1000)) == FrameResult::taken);
    // Those that are not ours count too.
    decoder.take(frame_of("18FEF100#FFFFFFFFFFFFFFFF", 5000));
    CHECK(decoder.take(frame_of("09F8011C#41DD4A1FE04341FF", 4999)) == FrameResult::time_back);
}

TEST_CASE("Times that nobody can reckon with are refused") {
    BusDecoder decoder;
    const TimeUs least = std::numeric_limits<TimeUs>::min();
    const TimeUs most = std::numeric_limits<TimeUs>::max();
    for (const TimeUs time_us : {least, least / 2, most / 2 + 1, most})
        CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", time_us)) == FrameResult::malformed);
    CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", least / 8)) == FrameResult::taken);
    CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", most / 8)) == FrameResult::taken);
}

TEST_CASE("The same frame within two milliseconds is an echo") {
    BusDecoder decoder;
    CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", 0)) == FrameResult::taken);
    CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", 2000)) == FrameResult::duplicate);
    CHECK(decoder.sample_count() == 0);
    CHECK(decoder.take(frame_of("09F8011C#40DD4A1FE04341FF", 2001)) == FrameResult::taken);
    CHECK(decoder.take(frame_of("09F8011C#41DD4A1FE04341FF", 2002)) == FrameResult::taken);
    CHECK(decoder.take(frame_of("09F8011D#41DD4A1FE04341FF", 2003)) == FrameResult::other_sender);
}

TEST_CASE("126992 and 129033 tell the time of day") {
    for (const std::string& text : {system_time(kDay, 372305000), time_date(kDay, 372305000)}) {
        BusDecoder decoder;
        CHECK_FALSE(decoder.utc_offset().known);
        CHECK(decoder.take(frame_of(text, kFrameUs)) == FrameResult::taken);
        CHECK(decoder.sample_count() == 0);
        REQUIRE(decoder.utc_offset().known);
        // 2024-07-01 10:20:30.5
        CHECK(decoder.utc_offset().offset_us + kFrameUs == 1719829230500000);
        CHECK(decoder.utc_offset().steps == 0);
    }
}

TEST_CASE("Days and times that are none are refused") {
    const auto result = [](const std::string& text) { return BusDecoder().take(frame_of(text)); };
    CHECK(result(system_time(0xFFFF, 0)) == FrameResult::not_available);
    CHECK(result(system_time(0xFFFD, 0)) == FrameResult::out_of_range);
    CHECK(result(system_time(kDay, 0xFFFFFFFF)) == FrameResult::not_available);
    CHECK(result(system_time(kDay, 864010000)) == FrameResult::taken);
    CHECK(result(system_time(kDay, 864010001)) == FrameResult::out_of_range);
    CHECK(result(system_time(7305, 0)) == FrameResult::taken);  // 1990-01-01
    CHECK(result(system_time(7304, 0)) == FrameResult::out_of_range);
    CHECK(result(time_date(0xFFFC, 0)) == FrameResult::taken);
}

TEST_CASE("A clock set in the middle of the day shows and a leap second does not") {
    BusDecoder decoder;
    TimeUs at_us = 0;
    const auto tell = [&](unsigned day, unsigned long time) {
        at_us += kSecondUs;
        decoder.take(frame_of(system_time(day, time), at_us));
        return decoder.utc_offset();
    };
    // 23:59:59, the leap second 23:59:60, 00:00:00 of the next day
    const UtcOffset before = tell(kDay, 863990000);
    CHECK(tell(kDay, 864000000).offset_us == before.offset_us);
    const UtcOffset after = tell(kDay + 1, 0);
    CHECK(after.offset_us == before.offset_us - kSecondUs);
    CHECK(after.steps == 0);
    // The receiver's or the frames' clock is set by a minute.
    const UtcOffset set = tell(kDay + 1, 600000 + 10000);
    CHECK(set.offset_us == after.offset_us + 60 * kSecondUs);
    CHECK(set.steps == 1);
    CHECK(tell(kDay + 1, 600000 + 20000).steps == 1);
}

TEST_CASE("The time from an atom or a satellite comes before that from a crystal") {
    BusDecoder decoder;
    decoder.take(frame_of(time_date(kDay, 10000), 0));
    CHECK(decoder.take(frame_of(system_time(kDay, 20000, 5), 1000)) == FrameResult::other_sender);
    for (int tenth = 0; tenth <= 50; ++tenth) {
        decoder.take(frame_of(time_date(kDay, 10000), 100000 + tenth * 100000));
        const FrameResult result =
            decoder.take(frame_of(system_time(kDay, 20000, 4), 100000 + tenth * 100000 + 1000));
        CHECK(result == (tenth < 50 ? FrameResult::other_sender : FrameResult::taken));
    }
}

TEST_CASE("Days of the calendar") {
    // GNU date
    CHECK(days_of(1970, 1, 1) == 0);
    CHECK(days_of(1990, 1, 1) == 7305);
    CHECK(days_of(1994, 3, 23) == 8847);
    CHECK(days_of(2000, 2, 29) == 11016);
    CHECK(days_of(2000, 3, 1) == 11017);
    CHECK(days_of(2024, 7, 1) == 19905);
    CHECK(days_of(2024, 12, 31) == 20088);
    CHECK(days_of(2079, 12, 31) == 40176);
    CHECK(days_of(2100, 2, 28) == 47540);
    CHECK(days_of(2100, 2, 29) == -1);
    CHECK(days_of(2100, 3, 1) == 47541);
    CHECK(days_of(2023, 2, 29) == -1);
    CHECK(days_of(2024, 4, 31) == -1);
    CHECK(days_of(2024, 0, 1) == -1);
    CHECK(days_of(2024, 13, 1) == -1);
    CHECK(days_of(2024, 1, 0) == -1);
    CHECK(days_of(1969, 12, 31) == -1);
    std::int64_t day = 0;
    for (int year = 1970; year <= 2100; ++year) {
        for (int month = 1; month <= 12; ++month) {
            for (int d = 1; days_of(year, month, d) >= 0; ++d) REQUIRE(days_of(year, month, d) == day++);
        }
    }
    CHECK(day == 47847);
}
