// Process data: the hopper, its cells and the reel.
#include <catch2/catch.hpp>
#include <cstdio>

#include "core/frames.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::decoded;
using test::frame_of;
using test::result_of;
using test::samples_of;

namespace {

// ISO 11783-10: command nibble and element, entry of the dictionary, value, low bytes first.
CanFrame process_data(TimeUs time_us, int element, unsigned entry, std::int32_t value, int source = 0x26,
                      int command = 3) {
    char text[40];
    const auto raw = static_cast<std::uint32_t>(value);
    std::snprintf(text, sizeof text, "0CCBFF%02X#%02X%02X%02X%02X%02X%02X%02X%02X", source,
                  ((element & 0xF) << 4) | command, element >> 4, entry & 0xFF, entry >> 8, raw & 0xFF,
                  (raw >> 8) & 0xFF, (raw >> 16) & 0xFF, raw >> 24);
    return frame_of(text, time_us);
}

constexpr TimeUs kTenthUs = 100000;

// A round of cells every 0.1 s; how many weights came.
int rounds(BusDecoder& decoder, int from, int count, int cells, int without = -1, std::int32_t g = 100000) {
    int weights = 0;
    for (int round = from; round < from + count; ++round) {
        for (int cell = 0; cell < cells; ++cell) {
            if (cell == without) continue;
            decoder.take(process_data(round * kTenthUs + cell * 1000, 1 + cell, 75, g * (cell + 1) + round));
            weights += decoder.sample_count();
        }
    }
    return weights;
}

}  // namespace

TEST_CASE("Mass content of element 0 is the hopper's weight") {
    // 1,234.567 kg by the layout, byte by byte
    const auto samples = decoded("0CCBFF26#03004B0087D61200");
    REQUIRE(samples.size() == 1);
    CHECK(samples[0].channel == Channel::weight);
    CHECK(samples[0].count == 1);
    CHECK(samples[0].value[0] == 1234.567F);
    // To one address instead of to all
    CHECK(decoded("0CCB1226#03004B0087D61200").size() == 1);
    BusDecoder decoder;
    CHECK(decoder.take(process_data(0, 0, 75, -2000000)) == FrameResult::taken);
    CHECK(decoder.sample(0).value[0] == -2000.0F);
    CHECK(decoder.take(process_data(kTenthUs, 0, 75, -2000001)) == FrameResult::out_of_range);
    CHECK(decoder.sample_count() == 0);
    CHECK(decoder.take(process_data(2 * kTenthUs, 0, 75, INT32_MIN)) == FrameResult::out_of_range);
    CHECK(decoder.take(process_data(3 * kTenthUs, 0, 75, 20000000)) == FrameResult::taken);
    CHECK(decoder.take(process_data(4 * kTenthUs, 0, 75, INT32_MAX)) == FrameResult::out_of_range);
}

TEST_CASE("Other commands and entries and elements are not ours") {
    for (int command = 0; command < 16; ++command) {
        BusDecoder decoder;
        const FrameResult result = decoder.take(process_data(0, 0, 75, 1000, 0x26, command));
        CHECK(result == (command == 3 ? FrameResult::taken : FrameResult::not_ours));
    }
    BusDecoder decoder;
    CHECK(decoder.take(process_data(0, 0, 74, 1000)) == FrameResult::not_ours);
    CHECK(decoder.take(process_data(0, 5, 75, 1000)) == FrameResult::not_ours);
    CHECK(decoder.take(process_data(0, 0x100, 75, 1000)) == FrameResult::not_ours);
    CHECK(decoder.take(process_data(0, 7, 141, 1)) == FrameResult::not_ours);
}

TEST_CASE("The work state is the reel") {
    BusDecoder decoder;
    CHECK(decoder.take(process_data(0, 0, 141, 1)) == FrameResult::taken);
    CHECK(decoder.sample(0).channel == Channel::reel);
    CHECK(decoder.sample(0).value[0] == 1.0F);
    CHECK(decoder.take(process_data(kTenthUs, 0, 141, 0)) == FrameResult::taken);
    CHECK(decoder.sample(0).value[0] == 0.0F);
    // 2 error, 3 not fitted (ISO 11783-11)
    CHECK(decoder.take(process_data(2 * kTenthUs, 0, 141, 2)) == FrameResult::not_available);
    CHECK(decoder.take(process_data(3 * kTenthUs, 0, 141, 3)) == FrameResult::not_available);
    CHECK(decoder.take(process_data(4 * kTenthUs, 0, 141, 4)) == FrameResult::out_of_range);
    CHECK(decoder.take(process_data(5 * kTenthUs, 0, 141, -1)) == FrameResult::out_of_range);
}

TEST_CASE("Elements may be told") {
    BusSettings settings;
    settings.hopper_element = 0xABC;
    settings.first_cell_element = 0x120;
    settings.cells = 2;
    settings.reel_element = 17;
    BusDecoder decoder(settings);
    CHECK(decoder.take(process_data(0, 0xABC, 75, 1000)) == FrameResult::taken);
    CHECK(decoder.take(process_data(1, 17, 141, 1)) == FrameResult::taken);
    CHECK(decoder.take(process_data(2, 0, 75, 1000)) == FrameResult::not_ours);
    CHECK(decoder.take(process_data(3, 0x120, 75, 1000)) == FrameResult::incomplete);
    CHECK(decoder.take(process_data(4, 0x122, 75, 1000)) == FrameResult::incomplete);  // more than was told
    // Whole, but the hopper's own weight is listened to.
    CHECK(decoder.take(process_data(5, 0x121, 75, 1000)) == FrameResult::other_sender);
}

TEST_CASE("Cells told one by one come as one weight") {
    BusSettings settings;
    settings.cells = 4;
    BusDecoder decoder(settings);
    CHECK(rounds(decoder, 0, 1, 4) == 1);
    const Sample weight = decoder.sample(0);
    CHECK(weight.count == 4);
    CHECK(weight.time_us == 3000);
    for (int i = 0; i < 4; ++i) CHECK(weight.value[i] == 100.0F * static_cast<float>(i + 1));
}

TEST_CASE("How many cells there are is learnt in the first second") {
    BusDecoder decoder;
    CHECK(rounds(decoder, 0, 10, 3) == 0);
    CHECK(rounds(decoder, 10, 5, 3) == 5);
    CHECK(decoder.sample(0).count == 3);
    // A fourth that comes late belongs to it from then on.
    CHECK(rounds(decoder, 15, 2, 4) == 2);  // the first of these still ended with the third
    CHECK(decoder.sample(0).count == 4);
}

TEST_CASE("A round without one of its cells gives no weight") {
    BusSettings settings;
    settings.cells = 4;
    for (int missing = 0; missing < 4; ++missing) {
        INFO("cell " << missing);
        BusDecoder decoder(settings);
        CHECK(rounds(decoder, 0, 3, 4) == 3);
        rounds(decoder, 3, 1, 4, missing);
        // The next is whole and of its own readings alone.
        CHECK(rounds(decoder, 4, 1, 4) == 1);
        for (int i = 0; i < 4; ++i)
            CHECK(decoder.sample(0).value[i] == static_cast<float>((100000 * (i + 1) + 4) / 1000.0));
        CHECK(rounds(decoder, 5, 20, 4, missing) == 0);
    }
}

TEST_CASE("Cells of two senders are never put together") {
    BusSettings settings;
    settings.cells = 2;
    BusDecoder decoder(settings);
    CHECK(decoder.take(process_data(0, 1, 75, 100000, 0x26)) == FrameResult::incomplete);
    CHECK(decoder.take(process_data(10, 2, 75, 900000, 0x27)) == FrameResult::other_sender);
    CHECK(decoder.take(process_data(20, 2, 75, 200000, 0x26)) == FrameResult::taken);
    CHECK(decoder.sample(0).value[1] == 200.0F);
}

TEST_CASE("Cells whose sender tells its NAME go on without a pause") {
    BusSettings settings;
    settings.cells = 4;
    BusDecoder decoder(settings);
    CHECK(rounds(decoder, 0, 5, 4) == 5);
    decoder.take(frame_of("18EEFF26#0100000C008100A0", 450000));
    CHECK(rounds(decoder, 5, 5, 4) == 5);
}

TEST_CASE("A cell from half a second ago is of no round") {
    BusSettings settings;
    settings.cells = 2;
    BusDecoder decoder(settings);
    decoder.take(process_data(0, 1, 75, 100000));
    CHECK(decoder.take(process_data(500001, 2, 75, 100000)) == FrameResult::incomplete);
    decoder.take(process_data(600000, 1, 75, 100000));
    CHECK(decoder.take(process_data(1100000, 2, 75, 100000)) == FrameResult::taken);
}

TEST_CASE("The hopper's own weight stands in when a cell is silent") {
    BusSettings settings;
    settings.cells = 2;
    BusDecoder decoder(settings);
    int of_cells = 0;
    int of_hopper = 0;
    for (int tenth = 0; tenth < 300; ++tenth) {
        const TimeUs at_us = tenth * kTenthUs;
        decoder.take(process_data(at_us, 1, 75, 100000 + tenth));
        of_cells += decoder.sample_count();
        if (tenth < 100) decoder.take(process_data(at_us + 1000, 2, 75, 100000 + tenth));
        of_cells += tenth < 100 ? decoder.sample_count() : 0;
        decoder.take(process_data(at_us + 2000, 0, 75, 200000 + tenth));
        of_hopper += decoder.sample_count();
        if (tenth < 129) CHECK(of_hopper == 0);
    }
    CHECK(of_cells == 100);
    CHECK(of_hopper == 300 - 129);
}
