// Each message against published examples, and what its definition does not allow.
#include <catch2/catch.hpp>

#include "core/frames.hpp"
#include "podrate/bus/machine_messages.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::decoded;
using test::frame_of;
using test::result_of;

// 129025, 129026, 127257 and 129029: canboatjs 3.20.0 decodes them so. 65096, 65256 and 61481: layouts as
// published, the values by their arithmetic.

TEST_CASE("129025 is a place") {
    const auto samples = decoded("09F8011C#40DD4A1FE04341FF");
    REQUIRE(samples.size() == 1);
    CHECK(samples[0].channel == Channel::position);
    CHECK(samples[0].lat_e7 == 525000000);
    CHECK(samples[0].lon_e7 == -12500000);
    CHECK(result_of("09F8011C#FFFFFF7FFFFFFF7F") == FrameResult::not_available);
    CHECK(decoded("09F8011C#FFFFFF7FFFFFFF7F").empty());
    CHECK(result_of("09F8011C#40DD4A1FFFFFFF7F") == FrameResult::not_available);
    CHECK(result_of("09F8011C#40DD4A1FFDFFFF7F") == FrameResult::out_of_range);
    // Nought and nought is what some write while they have no fix.
    CHECK(result_of("09F8011C#0000000000000000") == FrameResult::not_available);
    CHECK(decoded("09F8011C#0100000000000000").size() == 1);
    // A longitude of -214.7 degrees and a latitude of 90.0000001
    CHECK(result_of("09F8011C#40DD4A1F00000080") == FrameResult::out_of_range);
    CHECK(result_of("09F8011C#01E9A435E04341FF") == FrameResult::out_of_range);
    CHECK(result_of("09F8011C#00E9A43500D2496B") == FrameResult::taken);  // 90, 180
    CHECK(result_of("09F8011C#00E9A43501D2496B") == FrameResult::out_of_range);
}

TEST_CASE("129026 is a speed and, moving, a heading") {
    const auto samples = decoded("09F8021C#00FC5C3D8B00FFFF");
    REQUIRE(samples.size() == 2);
    CHECK(samples[0].channel == Channel::speed);
    CHECK(samples[0].value[0] == 1.39F);
    CHECK(samples[1].channel == Channel::heading);
    CHECK(samples[1].value[0] == Approx(1.5708 * 57.29577951).epsilon(1e-6));

    CHECK(decoded("09F8021C#00FC5C3D1E00FFFF").size() == 2);     // 0.30 m/s
    const auto standing = decoded("09F8021C#00FC5C3D1D00FFFF");  // 0.29
    REQUIRE(standing.size() == 1);
    CHECK(standing[0].channel == Channel::speed);
    // From magnetic north, and with an error in that place
    CHECK(decoded("09F8021C#00FD5C3D8B00FFFF").size() == 1);
    CHECK(decoded("09F8021C#00FE5C3D8B00FFFF").size() == 1);
    // A course without a speed; a speed without a course; more than a turn; none of both
    CHECK(decoded("09F8021C#00FC5C3DFFFFFFFF").at(0).channel == Channel::heading);
    CHECK(decoded("09F8021C#00FCFFFF8B00FFFF").at(0).channel == Channel::speed);
    CHECK(decoded("09F8021C#00FC71F5FFFFFFFF").empty());
    CHECK(decoded("09F8021C#00FC70F5FFFFFFFF").at(0).value[0] == 360.0F);
    CHECK(result_of("09F8021C#00FC71F5FFFFFFFF") == FrameResult::out_of_range);
    CHECK(result_of("09F8021C#00FFFFFFFFFFFFFF") == FrameResult::not_available);
    // 30.01 m/s
    CHECK(result_of("09F8021C#00FCFFFFB90BFFFF") == FrameResult::out_of_range);
}

TEST_CASE("127257 is pitch and roll and its yaw is passed over") {
    const auto samples = decoded("0DF1191C#00FF7FA3FE0C02FF");
    REQUIRE(samples.size() == 1);
    CHECK(samples[0].channel == Channel::tilt);
    CHECK(samples[0].count == 2);
    // -0.0349 and 0.0524 rad: bow down, leaning right
    CHECK(samples[0].value[0] == Approx(-0.0349 * 57.29577951).epsilon(1e-6));
    CHECK(samples[0].value[1] == Approx(0.0524 * 57.29577951).epsilon(1e-6));
    CHECK(result_of("0DF1191C#000000FF7F0C02FF") == FrameResult::not_available);
    CHECK(result_of("0DF1191C#000000A3FEFF7FFF") == FrameResult::not_available);
    CHECK(result_of("0DF1191C#000000A3FEFD7FFF") == FrameResult::out_of_range);
    CHECK(result_of("0DF1191C#000000A3FE3075FF") == FrameResult::out_of_range);  // 3 rad
}

TEST_CASE("65096 and 65097 are speeds whatever the direction") {
    for (const char* const text : {"0CFE481C#6E0540E20100FF05", "0CFE491C#6E0540E20100FF05"}) {
        const auto samples = decoded(text);
        REQUIRE(samples.size() == 1);
        CHECK(samples[0].channel == Channel::speed);
        CHECK(samples[0].value[0] == 1.39F);
        const MachineSpeed told = machine_speed(frame_of(text).data);
        CHECK(told.speed.raw == 1390);
        CHECK(told.distance.raw == 123456);
        CHECK(told.direction == Direction::forward);
    }
    CHECK(machine_speed(frame_of("0CFE481C#6E0540E20100FF04").data).direction == Direction::reverse);
    CHECK(machine_speed(frame_of("0CFE481C#6E0540E20100FF06").data).direction == Direction::broken);
    CHECK(machine_speed(frame_of("0CFE481C#6E0540E20100FF07").data).direction == Direction::not_available);
    for (const char* const end : {"04", "05", "06", "07"})
        CHECK(decoded(std::string("0CFE481C#6E0540E20100FF") + end).at(0).value[0] == 1.39F);
    CHECK(decoded("0CFE481C#3075FFFFFFFFFFFF").at(0).value[0] == 30.0F);
    CHECK(result_of("0CFE481C#3175FFFFFFFFFFFF") == FrameResult::out_of_range);
    CHECK(result_of("0CFE481C#FFFAFFFFFFFFFFFF") == FrameResult::out_of_range);  // a value, and too fast
    CHECK(result_of("0CFE481C#00FBFFFFFFFFFFFF") == FrameResult::out_of_range);
    CHECK(result_of("0CFE481C#00FEFFFFFFFFFFFF") == FrameResult::not_available);
    CHECK(result_of("0CFE481C#FFFFFFFFFFFFFFFF") == FrameResult::not_available);
}

TEST_CASE("65256 is heading and speed and pitch") {
    const auto samples = decoded("18FEE81C#805900050063C850");
    REQUIRE(samples.size() == 3);
    CHECK(samples[0].channel == Channel::speed);
    CHECK(samples[0].value[0] == Approx(5.0 / 3.6).epsilon(1e-6));
    CHECK(samples[1].channel == Channel::heading);
    CHECK(samples[1].value[0] == 179.0F);
    CHECK(samples[2].channel == Channel::tilt);
    CHECK(samples[2].value[0] == -2.0F);
    CHECK(samples[2].value[1] == 0.0F);
    CHECK(result_of("18FEE81C#FFFFFFFFFFFFFFFF") == FrameResult::not_available);
    CHECK(result_of("18FEE81C#00FEFFFEFFFE0000") == FrameResult::not_available);
    CHECK(decoded("18FEE81C#805900000063C850").size() == 2);  // stands: no heading
    CHECK(decoded("18FEE81C#01B400050063C850").size() == 2);  // 360 1/128 degrees
    CHECK(result_of("18FEE81C#01B4FFFFFFFFFFFF") == FrameResult::out_of_range);
    CHECK(result_of("18FEE81C#FFFFFFFF0000FFFF") == FrameResult::out_of_range);  // nose 200 degrees down
}

TEST_CASE("61481 is pitch and roll") {
    const auto samples = decoded("0CF0291C#00007C00807EFFFF");
    REQUIRE(samples.size() == 1);
    CHECK(samples[0].channel == Channel::tilt);
    CHECK(samples[0].value[0] == -2.0F);
    CHECK(samples[0].value[1] == 3.0F);
    CHECK(result_of("0CF0291C#0000FE00807EFFFF") == FrameResult::not_available);
    CHECK(result_of("0CF0291C#00007CFFFFFFFFFF") == FrameResult::not_available);
    CHECK(result_of("0CF0291C#0000FB00807EFFFF") == FrameResult::out_of_range);
    CHECK(result_of("0CF0291C#00000000807EFFFF") == FrameResult::out_of_range);  // -250 degrees
    // Figures of merit: fully working, degraded; then an error of either
    CHECK(result_of("0CF0291C#00007C00807E00FF") == FrameResult::taken);
    CHECK(result_of("0CF0291C#00007C00807E44FF") == FrameResult::taken);
    CHECK(result_of("0CF0291C#00007C00807E08FF") == FrameResult::not_available);
    CHECK(result_of("0CF0291C#00007C00807E80FF") == FrameResult::not_available);
}

TEST_CASE("Frames that are none of these are named") {
    CHECK(result_of("18FEF100#FFFFFFFFFFFFFFFF") == FrameResult::not_ours);  // cruise control, vehicle speed
    CHECK(result_of("123#40DD4A1FE04341FF") == FrameResult::not_ours);       // 11 bits
    CHECK(result_of("09F8011C#40DD4A1FE04341") == FrameResult::malformed);   // 7 bytes
    CHECK(result_of("18FEF100#") == FrameResult::not_ours);
    CHECK(result_of("09F801FF#40DD4A1FE04341FF") == FrameResult::malformed);  // from everybody
    CHECK(result_of("09F801FE#40DD4A1FE04341FF") == FrameResult::malformed);  // from nobody
    CanFrame frame = frame_of("09F8011C#40DD4A1FE04341FF");
    frame.remote = true;
    CHECK(BusDecoder().take(frame) == FrameResult::malformed);
    frame.remote = false;
    frame.length = 9;
    CHECK(BusDecoder().take(frame) == FrameResult::malformed);
    frame.length = 8;
    frame.id |= 1U << 29;
    CHECK(BusDecoder().take(frame) == FrameResult::malformed);
    CanFrame standard = frame_of("123#00");
    standard.id = 0x800;
    CHECK(BusDecoder().take(standard) == FrameResult::malformed);
}

TEST_CASE("The state is as small as its headers say") {
    CHECK(sizeof(BusDecoder) <= 1232);
}
