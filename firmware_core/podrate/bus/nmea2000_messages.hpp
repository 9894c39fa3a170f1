// What NMEA 2000 tells of place, course, attitude and time. Fields as published by canboat (canboat.json),
// with its words for the signs.
#pragma once

#include <cstdint>

#include "podrate/bus/fields.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

struct Place {
    Field lat;
    Field lon;
};
// 129025, 1e-7 degrees
Place position_rapid(const std::uint8_t (&data)[8]);

struct CourseSpeed {
    bool from_true_north = false;
    Field course;  // 1e-4 rad clockwise
    Field speed;   // 0.01 m/s
};
CourseSpeed course_speed(const std::uint8_t (&data)[8]);

// 127257, 1e-4 rad: the pitch is positive where the bow rises, the roll where the craft leans to the right.
struct Attitude {
    Field pitch;
    Field roll;
};
Attitude attitude(const std::uint8_t (&data)[8]);

struct DateTime {
    Field days;  // since 1970-01-01
    Field time;  // 0.0001 s since midnight, up to 86,401 s
};
enum class TimeSource : std::uint8_t { reference, crystal, unknown };
struct SystemTime {
    DateTime at;
    TimeSource source = TimeSource::unknown;
};
SystemTime system_time(const std::uint8_t (&data)[8]);
DateTime time_date(const std::uint8_t (&data)[8]);

// 129029: as far as it is used, the first 32 of at least 43 bytes.
inline constexpr int kGnssBytes = 32;
struct GnssPosition {
    DateTime at;
    Place place;       // 1e-16 degrees
    bool fix = false;  // a measured one: neither none nor dead reckoning, typed in or simulated
};
GnssPosition gnss_position(const std::uint8_t* data);

// Microseconds since 1970 of a date and time that are there and make sense; false where not. A date before
// 1990 is a receiver's that does not know it.
bool utc_of(const DateTime& at, TimeUs& utc_us);

}  // namespace podrate::bus
