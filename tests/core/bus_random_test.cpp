// Whatever comes, the decoder stands, and what it gives is fit for the estimator.
#include <catch2/catch.hpp>
#include <cstring>
#include <random>

#include "core/frames.hpp"
#include "podrate/bus/bus_watch.hpp"

using namespace podrate;
using namespace podrate::bus;

namespace {

class Noise {
  public:
    explicit Noise(std::uint32_t seed) : bits_(seed) {}
    std::uint32_t next() { return static_cast<std::uint32_t>(bits_()); }
    std::uint32_t below(std::uint32_t limit) { return next() % limit; }

  private:
    std::mt19937 bits_;
};

// Identifiers of our messages, from few addresses, so that senders meet.
std::uint32_t likely_id(Noise& noise) {
    constexpr std::uint32_t kPgns[] = {0xCBFF,  0xEEFF,  0xF029,  0xFE48,  0xFE49,  0xFEE8, 0x1F010,
                                       0x1F119, 0x1F801, 0x1F802, 0x1F805, 0x1F809, 0xFF50, 0xFEF1};
    constexpr std::uint32_t kSources[] = {0x1C, 0x1D, 0x26, 0x80, 0xFE, 0xFF};
    return (noise.below(8) << 26) | (kPgns[noise.below(14)] << 8) | kSources[noise.below(6)];
}

CanFrame frame_at(TimeUs time_us, Noise& noise) {
    CanFrame frame;
    frame.time_us = time_us;
    frame.extended = noise.below(50) != 0;
    frame.remote = noise.below(100) == 0;
    frame.id = noise.below(10) == 0 ? noise.next() : likely_id(noise);
    frame.length = static_cast<std::uint8_t>(noise.below(20) == 0 ? noise.below(256) : 8);
    // Ends of ranges more often than chance would have them
    constexpr std::uint8_t kEnds[] = {0x00, 0xFF, 0x7F, 0x80, 0xFE, 0xFA, 0xFB, 0x03};
    for (std::uint8_t& byte : frame.data)
        byte = noise.below(3) == 0 ? kEnds[noise.below(8)] : static_cast<std::uint8_t>(noise.next());
    if (noise.below(2) != 0) {  // process data, fast packets and our own message want more than chance
        constexpr std::uint8_t kBegin[4] = {0x03, 0x00, 75, 0};
        const std::uint32_t pgn = (frame.id >> 8) & 0x3FFFF;
        if (pgn == 0xCBFF) {
            std::memcpy(frame.data, kBegin, 4);
            frame.data[0] = static_cast<std::uint8_t>(3 | (noise.below(6) << 4));
            if (noise.below(2) == 0) frame.data[7] = 0;
            if (noise.below(4) == 0) {
                const std::uint8_t state[6] = {141, 0, static_cast<std::uint8_t>(noise.below(5)), 0, 0, 0};
                std::memcpy(frame.data + 2, state, 6);
            }
        }
        if (pgn == 0x1F805) frame.data[0] = static_cast<std::uint8_t>(noise.below(8));
        if (pgn == 0xFF50) std::memcpy(frame.data + 6, "PH", 2);
    }
    return frame;
}

}  // namespace

TEST_CASE("Random frames never spoil the decoder and never give what check refuses") {
    for (std::uint32_t seed = 1; seed <= 6; ++seed) {
        INFO("seed " << seed);
        Noise noise(seed);
        BusSettings settings;
        if (seed % 2 == 0) {
            settings.cells = static_cast<std::uint8_t>(noise.below(256));
            settings.speed_from = 0x1C;
            settings.weight_from = 0x26;
        }
        BusDecoder decoder(settings);
        BusWatch watch;
        long results[kFrameResults] = {};
        long channels[8] = {};
        TimeUs time_us = 0;
        TimeUs newest_us = 0;
        for (int i = 0; i < 100000; ++i) {
            time_us += noise.below(100) == 0 ? noise.below(10000000) : noise.below(3000);
            const TimeUs late_us = noise.below(100) == 0 ? noise.below(5000000) : 0;
            CanFrame frame = frame_at(time_us - late_us, noise);
            if (noise.below(1000) == 0) frame.time_us = static_cast<TimeUs>(noise.next()) << 32;
            if (frame.time_us > time_us + 1000000000) frame.time_us = kMostTimeUs + 1;
            const FrameResult result = decoder.take(frame);
            watch.see(frame, result, decoder);
            ++results[static_cast<int>(result)];
            REQUIRE(decoder.sample_count() <= BusDecoder::kMostSamples);
            REQUIRE((decoder.sample_count() == 0 || result == FrameResult::taken));
            for (int k = 0; k < decoder.sample_count(); ++k) {
                const Sample& sample = decoder.sample(k);
                REQUIRE(check(sample) == FeedResult::taken);
                REQUIRE(sample.time_us == frame.time_us);
                REQUIRE(sample.time_us >= newest_us);
                newest_us = sample.time_us;
                ++channels[static_cast<int>(sample.channel)];
            }
        }
        // The noise is such that each thing happens, not only refusals.
        for (int result = 0; result < kFrameResults - 1; ++result) {
            INFO("result " << result);
            CHECK(results[result] > 100);
            CHECK(watch.count(static_cast<FrameResult>(result)) ==
                  static_cast<std::uint32_t>(results[result]));
        }
        for (int channel = 0; channel < 7; ++channel) {
            INFO("channel " << channel);
            CHECK(channels[channel] > 5);
        }
    }
}

TEST_CASE("The same frames give the same samples") {
    BusDecoder one;
    BusDecoder two;
    Noise noise(99);
    for (TimeUs time_us = 0; time_us < 50000000; time_us += 1000) {
        const CanFrame frame = frame_at(time_us, noise);
        REQUIRE(one.take(frame) == two.take(frame));
        REQUIRE(one.sample_count() == two.sample_count());
        for (int i = 0; i < one.sample_count(); ++i) {
            for (int k = 0; k < 4; ++k) REQUIRE(one.sample(i).value[k] == two.sample(i).value[k]);
            REQUIRE(one.sample(i).lat_e7 == two.sample(i).lat_e7);
        }
    }
}
