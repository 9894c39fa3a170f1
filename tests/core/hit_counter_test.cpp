// The loss sensor's and the drum's own message.
#include "podrate/bus/hit_counter.hpp"

#include <catch2/catch.hpp>

#include "core/frames.hpp"
#include "podrate/bus/machine_messages.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::decoded;
using test::frame_of;
using test::result_of;

namespace {
constexpr TimeUs kTenthUs = 100000;
}

TEST_CASE("Hits are what the counter rose by") {
    HitCounter counter;
    CHECK(counter.add(0, 5000) == 0.0F);
    CHECK(counter.add(kTenthUs, 5012) == 12.0F);
    CHECK(counter.add(2 * kTenthUs, 5012) == 0.0F);
    CHECK(counter.add(3 * kTenthUs, 5013) == 1.0F);
}

TEST_CASE("A counter that comes to its end goes on from nought") {
    HitCounter counter;
    counter.add(0, kHitsModulus - 10);
    CHECK(counter.add(kTenthUs, kHitsModulus - 1) == 9.0F);
    CHECK(counter.add(2 * kTenthUs, 6) == 7.0F);
}

TEST_CASE("A counter that begins anew gives no hits") {
    HitCounter counter;
    counter.add(0, 70000);
    CHECK(counter.add(kTenthUs, 3) == 0.0F);
    CHECK(counter.add(2 * kTenthUs, 10) == 7.0F);
    // ... nor does one that leaps up further than any sensor counts.
    CHECK(counter.add(3 * kTenthUs, 4000000) == 0.0F);
    CHECK(counter.add(4 * kTenthUs, 4000001) == 1.0F);
}

TEST_CASE("After a gap more may have come, but never more than the channel takes") {
    HitCounter counter;
    counter.add(0, 0);
    CHECK(counter.add(10 * kSecondUs, 2000) == 2000.0F);
    CHECK(counter.add(1000 * kSecondUs, 102000) == 100000.0F);
    CHECK(counter.add(2000 * kSecondUs, 202001) == 0.0F);
    CHECK(counter.add(2000 * kSecondUs, 202101) == 100.0F);
    CHECK(counter.add(2000 * kSecondUs, 202202) == 0.0F);
}

TEST_CASE("The message tells hits and the drum's speed") {
    // 100,000 hits, 240.5 rpm = 1,924 steps of 0.125
    BusDecoder decoder;
    CHECK(decoder.take(frame_of("18FF5026#A086010084075048", 0)) == FrameResult::taken);
    REQUIRE(decoder.sample_count() == 1);
    CHECK(decoder.sample(0).channel == Channel::hits);
    CHECK(decoder.sample(0).value[0] == 0.0F);
    CHECK(decoder.drum().known);
    CHECK(decoder.drum().rpm == 240.5F);
    CHECK(decoder.take(frame_of("18FF5026#AA860100FFFF5048", kTenthUs)) == FrameResult::taken);
    CHECK(decoder.sample(0).value[0] == 10.0F);
    CHECK(decoder.drum().time_us == 0);
    // No hits, but the drum; neither
    CHECK(decoder.take(frame_of("18FF5026#FFFFFFFF08005048", 2 * kTenthUs)) == FrameResult::taken);
    CHECK(decoder.sample_count() == 0);
    CHECK(decoder.drum().rpm == 1.0F);
    CHECK(decoder.take(frame_of("18FF5026#000000FE00FE5048", 3 * kTenthUs)) == FrameResult::not_available);
    CHECK(decoder.take(frame_of("18FF5026#000000FB00FB5048", 4 * kTenthUs)) == FrameResult::out_of_range);
    // Another maker's message of that number
    CHECK(result_of("18FF5026#A086010084075049") == FrameResult::not_ours);
    CHECK(result_of("18FF5126#A086010084075048") == FrameResult::not_ours);
}

TEST_CASE("Another sender's counter begins anew") {
    BusDecoder decoder;
    decoder.take(frame_of("18FF5026#A0860100FFFF5048", 0));
    CHECK(decoder.take(frame_of("18FF5027#A5860100FFFF5048", kTenthUs)) == FrameResult::other_sender);
    CHECK(decoder.take(frame_of("18FF5027#A6860100FFFF5048", 4 * kSecondUs)) == FrameResult::taken);
    CHECK(decoder.sample(0).value[0] == 0.0F);
    CHECK(decoder.take(frame_of("18FF5027#A8860100FFFF5048", 5 * kSecondUs)) == FrameResult::taken);
    CHECK(decoder.sample(0).value[0] == 2.0F);
}
