#include "podrate/bus/nmea2000_messages.hpp"

#include "podrate/bus/utc.hpp"

namespace podrate::bus {
namespace {

constexpr std::int64_t kLastTime = 864010000;  // 0.0001 s: 86,401 s, a leap second and its end

DateTime date_time(const std::uint8_t* data) {
    return {nmea2000_field(data, 2), nmea2000_field(data + 2, 4)};
}

}  // namespace

Place position_rapid(const std::uint8_t (&data)[8]) {
    return {nmea2000_signed_field(data, 4), nmea2000_signed_field(data + 4, 4)};
}

CourseSpeed course_speed(const std::uint8_t (&data)[8]) {
    return {(data[1] & 3U) == 0, nmea2000_field(data + 2, 2), nmea2000_field(data + 4, 2)};
}

Attitude attitude(const std::uint8_t (&data)[8]) {
    return {nmea2000_signed_field(data + 3, 2), nmea2000_signed_field(data + 5, 2)};
}

SystemTime system_time(const std::uint8_t (&data)[8]) {
    // 0 to 4: GPS, GLONASS, a radio station, a caesium or rubidium clock; 5: a crystal.
    const unsigned source = data[1] & 0xFU;
    const TimeSource kind = source <= 4   ? TimeSource::reference
                            : source == 5 ? TimeSource::crystal
                                          : TimeSource::unknown;
    return {date_time(data + 2), kind};
}

// The local offset in the last two bytes is for showing: the time itself is UTC.
DateTime time_date(const std::uint8_t (&data)[8]) {
    return date_time(data);
}

GnssPosition gnss_position(const std::uint8_t* data) {
    GnssPosition position;
    position.at = date_time(data + 1);
    position.place = {nmea2000_signed_field(data + 7, 8), nmea2000_signed_field(data + 15, 8)};
    const unsigned method = data[31] >> 4;
    position.fix = method >= 1 && method <= 5;
    return position;
}

bool utc_of(const DateTime& at, TimeUs& utc_us) {
    if (!at.days.good() || !at.time.good()) return false;
    if (at.days.raw < kFirstDay || at.time.raw > kLastTime) return false;
    utc_us = at.days.raw * kDayUs + at.time.raw * 100;
    return true;
}

}  // namespace podrate::bus
