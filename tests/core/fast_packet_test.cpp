// Messages of several frames, with every kind of loss.
#include "podrate/bus/fast_packet.hpp"

#include <catch2/catch.hpp>
#include <vector>

#include "core/frames.hpp"
#include "core/normals.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::frame_of;

namespace {

// 129029 as canboatjs 3.20.0 decodes it: 2024-07-01 10:20:30.5, 52.5, -1.25, 85.25 m.
const std::vector<std::string> kGnss = {"402B01C14D68EC30", "4116008014EBB72C", "424907FFBF4EF450",
                                        "4397D3FFD0CF1405", "440000000042FC0E", "45500096008E1200",
                                        "460000FFFFFFFFFF"};
constexpr TimeUs kGnssUtcUs = 1719829230500000;  // date -u -d "2024-07-01 10:20:30" +%s: 1719829230

FrameResult take(BusDecoder& decoder, std::size_t part, TimeUs time_us, int message = 2, int source = 0x1C) {
    CanFrame frame = frame_of("0DF8051C#" + kGnss[part], time_us);
    frame.id = (frame.id & ~0xFFU) | static_cast<std::uint32_t>(source);
    frame.data[0] = static_cast<std::uint8_t>((message << 5) | (frame.data[0] & 0x1F));
    return decoder.take(frame);
}

// A whole message from `time_us` on, 5 ms between frames.
FrameResult take_all(BusDecoder& decoder, TimeUs time_us, int message = 2, int source = 0x1C) {
    FrameResult result{};
    for (std::size_t part = 0; part < kGnss.size(); ++part)
        result = take(decoder, part, time_us + static_cast<TimeUs>(part) * 5000, message, source);
    return result;
}

}  // namespace

TEST_CASE("129029 is a place and the time of day") {
    BusDecoder decoder;
    for (std::size_t part = 0; part < 6; ++part) {
        CHECK(take(decoder, part, 5000 * static_cast<TimeUs>(part)) == FrameResult::incomplete);
        CHECK(decoder.sample_count() == 0);
    }
    CHECK(take(decoder, 6, 30000) == FrameResult::taken);
    REQUIRE(decoder.sample_count() == 1);
    CHECK(decoder.sample(0).channel == Channel::position);
    CHECK(decoder.sample(0).time_us == 30000);
    CHECK(decoder.sample(0).lat_e7 == 525000000);
    CHECK(decoder.sample(0).lon_e7 == -12500000);
    REQUIRE(decoder.utc_offset().known);
    CHECK(decoder.utc_offset().offset_us == kGnssUtcUs - 30000);
}

TEST_CASE("129029 without a measured place gives none") {
    // Method in the high nibble of byte 32, the fourth frame from the end's sixth: 0 none, 6 to 8 not
    // measured.
    for (int method = 0; method < 16; ++method) {
        BusDecoder decoder;
        FrameResult result{};
        for (std::size_t part = 0; part < kGnss.size(); ++part) {
            CanFrame frame = frame_of("0DF8051C#" + kGnss[part]);
            if (part == 4) frame.data[5] = static_cast<std::uint8_t>((method << 4) | 2);
            result = decoder.take(frame);
        }
        INFO("method " << method);
        const bool measured = method >= 1 && method <= 5;
        CHECK(result == (measured ? FrameResult::taken : FrameResult::not_available));
        CHECK(decoder.sample_count() == (measured ? 1 : 0));
        CHECK(decoder.utc_offset().known == measured);
    }
}

TEST_CASE("A message that has lost a frame is dropped and the next is whole") {
    for (std::size_t lost = 0; lost < kGnss.size(); ++lost) {
        INFO("frame " << lost);
        BusDecoder decoder;
        for (std::size_t part = 0; part < kGnss.size(); ++part) {
            if (part != lost)
                CHECK(take(decoder, part, 5000 * static_cast<TimeUs>(part)) == FrameResult::incomplete);
        }
        CHECK(take_all(decoder, 100000, 3) == FrameResult::taken);
    }
}

TEST_CASE("The rest of one message never completes another") {
    for (std::size_t from = 1; from < kGnss.size(); ++from) {
        BusDecoder decoder;
        TimeUs at_us = 0;
        for (std::size_t part = 0; part < from; ++part) take(decoder, part, at_us += 5000, 2);
        for (std::size_t part = from; part < kGnss.size(); ++part)
            CHECK(take(decoder, part, at_us += 5000, 3) == FrameResult::incomplete);
    }
}

TEST_CASE("A frame that comes twice does no harm") {
    for (std::size_t twice = 0; twice + 1 < kGnss.size(); ++twice) {
        INFO("frame " << twice);
        BusDecoder decoder;
        FrameResult result{};
        TimeUs at_us = 0;
        for (std::size_t part = 0; part < kGnss.size(); ++part) {
            result = take(decoder, part, at_us += 5000);
            if (part == twice) result = take(decoder, part, at_us += 5000);
        }
        CHECK(result == FrameResult::taken);
        CHECK(decoder.sample_count() == 1);
        // Its last frame once more belongs to nothing.
        CHECK(take(decoder, 6, at_us += 5000) == FrameResult::incomplete);
    }
}

TEST_CASE("Frames out of their order give no message") {
    for (std::size_t first = 0; first + 1 < kGnss.size(); ++first) {
        INFO("frames " << first << " and the next");
        BusDecoder decoder;
        std::vector<std::size_t> order = {0, 1, 2, 3, 4, 5, 6};
        std::swap(order[first], order[first + 1]);
        for (std::size_t i = 0; i < order.size(); ++i)
            CHECK(take(decoder, order[i], 5000 * static_cast<TimeUs>(i)) == FrameResult::incomplete);
        CHECK(take_all(decoder, kSecondUs, 3) == FrameResult::taken);
    }
}

TEST_CASE("A message that stops for three quarters of a second is dropped") {
    for (const TimeUs gap_us : {750000, 750001}) {
        BusDecoder decoder;
        for (std::size_t part = 0; part < 6; ++part) take(decoder, part, 0);
        CHECK(take(decoder, 6, gap_us) == (gap_us == 750000 ? FrameResult::taken : FrameResult::incomplete));
    }
}

TEST_CASE("Messages of several senders under way at a time are kept apart") {
    BusDecoder decoder;
    TimeUs at_us = 0;
    for (std::size_t part = 0; part + 1 < kGnss.size(); ++part) {
        for (int source = 1; source <= FastPackets::kSlots; ++source)
            take(decoder, part, at_us += 1000, source % 8, source);
    }
    for (int source = 1; source <= FastPackets::kSlots; ++source) {
        const FrameResult result = take(decoder, 6, at_us += 1000, source % 8, source);
        CHECK(result == (source == 1 ? FrameResult::taken : FrameResult::other_sender));
    }
    // One more than there is room for: the one longest silent is given up.
    for (std::size_t part = 0; part < 3; ++part) {
        for (int source = 1; source <= FastPackets::kSlots; ++source)
            take(decoder, part, at_us += 1000, 5, source);
    }
    CHECK(take_all(decoder, at_us += 1000, 5, 99) == FrameResult::other_sender);
    at_us += 50000;
    for (std::size_t part = 3; part < kGnss.size(); ++part) {
        CHECK(take(decoder, part, at_us += 1000, 5, 1) == FrameResult::incomplete);
        const FrameResult second = take(decoder, part, at_us += 1000, 5, 2);
        CHECK(second == (part == 6 ? FrameResult::other_sender : FrameResult::incomplete));
    }
}

TEST_CASE("A message whose sender has lost its address is dropped") {
    BusDecoder decoder;
    for (std::size_t part = 0; part < 6; ++part) take(decoder, part, 0);
    decoder.take(frame_of("18EEFF1C#0100000C008100A0", 1000));
    CHECK(take(decoder, 6, 2000) == FrameResult::incomplete);
}

TEST_CASE("Lengths that no such message has") {
    for (const int length : {0, 224, 255}) {
        BusDecoder decoder;
        CanFrame frame = frame_of("0DF8051C#" + kGnss[0]);
        frame.data[1] = static_cast<std::uint8_t>(length);
        CHECK(decoder.take(frame) == FrameResult::incomplete);
        CHECK(take(decoder, 1, 5000) == FrameResult::incomplete);
    }
    BusDecoder decoder;
    CanFrame frame = frame_of("0DF8051C#" + kGnss[0]);
    frame.data[1] = 6;
    CHECK(decoder.take(frame) == FrameResult::malformed);
}

TEST_CASE("Each length comes out whole with its first bytes") {
    for (int length = 1; length <= FastPackets::kMost; ++length) {
        FastPackets fast;
        int byte = 0;
        bool whole = false;
        int frames = 0;
        while (!whole && frames < 32) {
            std::uint8_t data[8] = {};
            data[0] = static_cast<std::uint8_t>(frames);
            data[1] = static_cast<std::uint8_t>(length);
            for (int i = frames == 0 ? 2 : 1; i < 8; ++i) data[i] = static_cast<std::uint8_t>(++byte);
            whole = fast.add(0, 1, 129029, data);
            ++frames;
        }
        REQUIRE(whole);
        REQUIRE(frames == (length <= 6 ? 1 : 1 + (length - 6 + 6) / 7));
        REQUIRE(fast.length() == length);
        for (int i = 0; i < std::min<int>(length, FastPackets::kKept); ++i) REQUIRE(fast.bytes()[i] == i + 1);
    }
}

TEST_CASE("A lossy bus gives whole places and no others") {
    test::Normals numbers(11);
    BusDecoder decoder;
    int places = 0;
    int unspoilt = 0;
    for (int message = 0; message < 5000; ++message) {
        bool spoilt = false;
        for (std::size_t part = 0; part < kGnss.size(); ++part) {
            const TimeUs at_us = message * 100000 + static_cast<TimeUs>(part) * 2500;
            const double chance = numbers.uniform();
            if (chance < 0.05) {
                spoilt = true;
                continue;
            }
            const std::size_t other = static_cast<std::size_t>(numbers.uniform() * 7.0);
            const std::size_t sent = chance < 0.1 ? other : part;
            take(decoder, sent, at_us, message % 8);
            places += decoder.sample_count();
            if (decoder.sample_count() > 0) {
                REQUIRE(decoder.sample(0).lat_e7 == 525000000);
                REQUIRE(decoder.sample(0).lon_e7 == -12500000);
            }
            spoilt = spoilt || sent != part;
        }
        if (!spoilt) ++unspoilt;
    }
    CHECK(unspoilt > 2000);
    // Besides those some whose false frame came where it did no harm
    CHECK(places >= unspoilt);
    CHECK(places < unspoilt * 5 / 4);
}
