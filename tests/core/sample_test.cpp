#include "podrate/sample.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace podrate;

namespace {

constexpr float kNan = std::numeric_limits<float>::quiet_NaN();
constexpr float kInf = std::numeric_limits<float>::infinity();

Sample with_value(Sample sample, int index, float value) {
    sample.value[index] = value;
    return sample;
}

}  // namespace

TEST_CASE("Good samples of each channel are taken") {
    CHECK(check(weight_sample(0, 1500.0F)) == FeedResult::taken);
    CHECK(check(speed_sample(0, 0.8F)) == FeedResult::taken);
    CHECK(check(tilt_sample(0, 2.0F, -3.0F)) == FeedResult::taken);
    CHECK(check(position_sample(0, 525000000, -12500000)) == FeedResult::taken);
    CHECK(check(heading_sample(0, 359.9F)) == FeedResult::taken);
    CHECK(check(reel_sample(0, true)) == FeedResult::taken);
    CHECK(check(reel_sample(0, false)) == FeedResult::taken);
    CHECK(check(hits_sample(0, 17.0F)) == FeedResult::taken);
    CHECK(check(tray_sample(9, 5, 0.03F, 0.2F)) == FeedResult::taken);
}

TEST_CASE("NaN and infinity are refused in any value that counts") {
    for (const float bad : {kNan, -kNan, kInf, -kInf}) {
        CHECK(check(weight_sample(0, bad)) == FeedResult::not_finite);
        CHECK(check(speed_sample(0, bad)) == FeedResult::not_finite);
        CHECK(check(tilt_sample(0, bad, 0.0F)) == FeedResult::not_finite);
        CHECK(check(tilt_sample(0, 0.0F, bad)) == FeedResult::not_finite);
        CHECK(check(heading_sample(0, bad)) == FeedResult::not_finite);
        CHECK(check(hits_sample(0, bad)) == FeedResult::not_finite);
        CHECK(check(tray_sample(0, 0, bad, 0.2F)) == FeedResult::not_finite);
        CHECK(check(tray_sample(0, 0, 0.03F, bad)) == FeedResult::not_finite);
        Sample cells = weight_sample(0, 100.0F);
        cells.count = 4;
        for (int i = 0; i < 4; ++i) CHECK(check(with_value(cells, i, bad)) == FeedResult::not_finite);
    }
}

TEST_CASE("What does not count is not looked at") {
    CHECK(check(with_value(weight_sample(0, 100.0F), 3, kNan)) == FeedResult::taken);
    CHECK(check(with_value(position_sample(0, 1, 1), 0, kNan)) == FeedResult::taken);
}

TEST_CASE("The ends of each range are inside and the next float beyond is not") {
    const struct {
        Sample (*make)(TimeUs, float);
        float low;
        float high;
    } channels[] = {
        {weight_sample, -2000.0F, 20000.0F},
        {speed_sample, 0.0F, 30.0F},
        {heading_sample, -360.0F, 360.0F},
        {hits_sample, 0.0F, 100000.0F},
        {[](TimeUs at_us, float ground_kgpm2) { return tray_sample(at_us, 0, ground_kgpm2, 0.2F); }, 0.0F,
         5.0F},
        {[](TimeUs at_us, float sd_share) { return tray_sample(at_us, 0, 0.03F, sd_share); }, 0.01F, 2.0F},
    };
    for (const auto& c : channels) {
        CHECK(check(c.make(0, c.low)) == FeedResult::taken);
        CHECK(check(c.make(0, c.high)) == FeedResult::taken);
        CHECK(check(c.make(0, std::nextafter(c.low, -kInf))) == FeedResult::out_of_range);
        CHECK(check(c.make(0, std::nextafter(c.high, kInf))) == FeedResult::out_of_range);
    }
    CHECK(check(tilt_sample(0, 60.0F, -60.0F)) == FeedResult::taken);
    CHECK(check(tilt_sample(0, 60.1F, 0.0F)) == FeedResult::out_of_range);
    CHECK(check(tilt_sample(0, 0.0F, -60.1F)) == FeedResult::out_of_range);
}

TEST_CASE("Places are on the globe") {
    CHECK(check(position_sample(0, 900000000, 1800000000)) == FeedResult::taken);
    CHECK(check(position_sample(0, -900000000, -1800000000)) == FeedResult::taken);
    CHECK(check(position_sample(0, 900000001, 0)) == FeedResult::out_of_range);
    CHECK(check(position_sample(0, 0, -1800000001)) == FeedResult::out_of_range);
    CHECK(check(position_sample(0, std::numeric_limits<std::int32_t>::min(), 0)) == FeedResult::out_of_range);
}

TEST_CASE("A tray is told with the time at which its place was passed") {
    const Sample tray = tray_sample(9, 5, 0.03F, 0.2F);
    CHECK(tray.channel == Channel::tray);
    CHECK(tray.time_us == 9);
    CHECK(tray.about_us == 5);
    CHECK(tray.value[0] == 0.03F);
    CHECK(tray.value[1] == 0.2F);
    CHECK(hits_sample(3, 4.0F).value[0] == 4.0F);
    CHECK(hits_sample(3, 4.0F).channel == Channel::hits);
}

TEST_CASE("A wrong count of values is refused") {
    Sample sample = weight_sample(0, 100.0F);
    for (const int count : {0, 5, 255}) {
        sample.count = static_cast<std::uint8_t>(count);
        CHECK(check(sample) == FeedResult::out_of_range);
    }
    for (Sample single : {speed_sample(0, 1.0F), hits_sample(0, 1.0F), heading_sample(0, 1.0F)}) {
        single.count = 2;
        CHECK(check(single) == FeedResult::out_of_range);
    }
    // A tray says how sure its count is.
    Sample tray = tray_sample(0, 0, 0.03F, 0.2F);
    for (const int count : {0, 1, 3}) {
        tray.count = static_cast<std::uint8_t>(count);
        CHECK(check(tray) == FeedResult::out_of_range);
    }
}

TEST_CASE("A channel that does not exist is refused") {
    Sample sample = weight_sample(0, 0.0F);
    sample.channel = static_cast<Channel>(200);
    CHECK(check(sample) == FeedResult::out_of_range);
}
