#include "podrate/sample.hpp"

#include "podrate/math/elementary.hpp"

namespace podrate {
namespace {

struct Range {
    float low;
    float high;
    std::uint8_t most;  // values a sample of this channel may carry
};

Range range_of(Channel channel) {
    switch (channel) {
        case Channel::weight: return {-2000.0F, 20000.0F, 4};
        case Channel::speed: return {0.0F, 30.0F, 1};
        case Channel::tilt: return {-60.0F, 60.0F, 2};
        case Channel::heading: return {-360.0F, 360.0F, 1};
        case Channel::reel: return {0.0F, 1.0F, 1};
        case Channel::hits: return {0.0F, 100000.0F, 1};
        case Channel::tray: return {0.0F, 5.0F, 2};
        case Channel::position: return {0.0F, 0.0F, 0};
    }
    return {0.0F, 0.0F, 0};
}

constexpr float kSurestTray = 0.01F;
constexpr float kVaguestTray = 2.0F;

bool is_finite(float value) {
    return (math::bits_of(value) & 0x7F800000U) != 0x7F800000U;
}

Sample one_value(TimeUs time_us, Channel channel, float value) {
    Sample sample;
    sample.time_us = time_us;
    sample.channel = channel;
    sample.value[0] = value;
    return sample;
}

}  // namespace

Sample weight_sample(TimeUs time_us, float hopper_kg) {
    return one_value(time_us, Channel::weight, hopper_kg);
}

Sample speed_sample(TimeUs time_us, float speed_mps) {
    return one_value(time_us, Channel::speed, speed_mps);
}

Sample tilt_sample(TimeUs time_us, float pitch_deg, float roll_deg) {
    Sample sample = one_value(time_us, Channel::tilt, pitch_deg);
    sample.value[1] = roll_deg;
    sample.count = 2;
    return sample;
}

Sample position_sample(TimeUs time_us, std::int32_t lat_e7, std::int32_t lon_e7) {
    Sample sample = one_value(time_us, Channel::position, 0.0F);
    sample.count = 0;
    sample.lat_e7 = lat_e7;
    sample.lon_e7 = lon_e7;
    return sample;
}

Sample heading_sample(TimeUs time_us, float heading_deg) {
    return one_value(time_us, Channel::heading, heading_deg);
}

Sample reel_sample(TimeUs time_us, bool on) {
    return one_value(time_us, Channel::reel, on ? 1.0F : 0.0F);
}

Sample hits_sample(TimeUs time_us, float new_hits) {
    return one_value(time_us, Channel::hits, new_hits);
}

Sample tray_sample(TimeUs time_us, TimeUs about_us, float ground_kgpm2, float sd_share) {
    Sample sample = one_value(time_us, Channel::tray, ground_kgpm2);
    sample.value[1] = sd_share;
    sample.count = 2;
    sample.about_us = about_us;
    return sample;
}

FeedResult check(const Sample& sample) {
    if (sample.channel == Channel::position) {
        const bool lat_good = sample.lat_e7 >= -900000000 && sample.lat_e7 <= 900000000;
        const bool lon_good = sample.lon_e7 >= -1800000000 && sample.lon_e7 <= 1800000000;
        return lat_good && lon_good ? FeedResult::taken : FeedResult::out_of_range;
    }
    const Range range = range_of(sample.channel);
    if (sample.count == 0 || sample.count > range.most) return FeedResult::out_of_range;
    for (std::uint8_t i = 0; i < sample.count; ++i) {
        if (!is_finite(sample.value[i])) return FeedResult::not_finite;
    }
    for (std::uint8_t i = 0; i < sample.count; ++i) {
        if (sample.value[i] < range.low || sample.value[i] > range.high) return FeedResult::out_of_range;
    }
    const bool tray = sample.channel == Channel::tray;
    if (tray && (sample.count != 2 || sample.value[1] < kSurestTray || sample.value[1] > kVaguestTray))
        return FeedResult::out_of_range;
    return FeedResult::taken;
}

}  // namespace podrate
