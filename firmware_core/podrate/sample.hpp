// The one door into the estimator: every sample, with its own time. What passes here is the whole input of a
// run, so feeding the same samples again gives the same run, bit for bit.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"

namespace podrate {

// Microseconds since 1970-01-01T00:00:00Z. Never decreases from one sample to the next.
using TimeUs = std::int64_t;

inline constexpr TimeUs kSecondUs = 1000000;
// The year 9999: the latest time that is believed at the doors that face a bus or a memory.
inline constexpr TimeUs kLatestUs = TimeUs{253402300799} * kSecondUs;

// Between spans and numbers. A span up to half an hour goes by way of 32 bits: the same number, and one
// instruction where a controller needs a hundred for 64 bits.
inline Real number_of_us(TimeUs span_us) {
    const auto brief = static_cast<std::int32_t>(span_us);
    return brief == span_us ? static_cast<Real>(brief) : static_cast<Real>(span_us);
}
inline Real seconds(TimeUs span_us) {
    return number_of_us(span_us) / Real(1e6);
}
inline TimeUs microseconds(Real span_s) {
    const Real span_us = span_s * Real(1e6);
    if (span_us > Real(-2e9) && span_us < Real(2e9)) return static_cast<std::int32_t>(span_us);
    return static_cast<TimeUs>(span_us);
}

enum class Channel : std::uint8_t {
    weight,  // value[0..count-1]: cell readings, kg, -2,000 to 20,000 each; their sum is the hopper's weight
    speed,   // value[0]: speed over ground, m/s, 0 to 30, forward or back
    tilt,    // value[0]: pitch, degrees, nose up positive; value[1]: roll, degrees, right side down positive;
             // +-60
    position,  // lat_e7, lon_e7: WGS 84, 1e-7 degrees
    heading,   // value[0]: degrees clockwise from north, -360 to 360
    reel,      // value[0]: 1 where the reel turns and crop is taken in, 0 where not
    hits,      // value[0]: hits of the loss sensor since the last such sample, 0 to 100,000
    tray,  // value[0]: peas counted on the ground, kg/m2, 0 to 5; value[1]: standard deviation of that as a
           // share, 0.01 to 2; about_us: when the machine passed that place, minutes ago as may be
};

struct Sample {
    TimeUs time_us = 0;
    Channel channel = Channel::weight;
    std::uint8_t count = 1;  // how many of value[] count
    float value[4] = {0.0F, 0.0F, 0.0F, 0.0F};
    std::int32_t lat_e7 = 0;
    std::int32_t lon_e7 = 0;
    TimeUs about_us = 0;
};

enum class FeedResult : std::uint8_t {
    taken,
    not_finite,     // NaN or infinity in a value
    out_of_range,   // outside the channel's range above
    time_back,      // before the newest sample taken
    no_such_place,  // a tray for a time at which no crop was cut, or too long ago
};

Sample weight_sample(TimeUs time_us, float hopper_kg);
Sample speed_sample(TimeUs time_us, float speed_mps);
Sample tilt_sample(TimeUs time_us, float pitch_deg, float roll_deg);
Sample position_sample(TimeUs time_us, std::int32_t lat_e7, std::int32_t lon_e7);
Sample heading_sample(TimeUs time_us, float heading_deg);
Sample reel_sample(TimeUs time_us, bool on);
Sample hits_sample(TimeUs time_us, float new_hits);
Sample tray_sample(TimeUs time_us, TimeUs about_us, float ground_kgpm2, float sd_share);

// Whether a sample's values are finite and in their channel's range; says nothing of its time.
FeedResult check(const Sample& sample);

}  // namespace podrate
