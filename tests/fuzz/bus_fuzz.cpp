// Bytes as frames: four of settings, then sixteen for each frame.
#include <cstring>

#include "fuzz/entry.hpp"
#include "podrate/bus/bus_encoder.hpp"
#include "podrate/bus/bus_watch.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::promise;

namespace {

constexpr std::size_t kSettingsBytes = 4;
constexpr std::size_t kFrameBytes = 16;

// Time: a byte of tenths of a second, two of microseconds, the highest bit of the flags sets it far away.
CanFrame frame_of(const std::uint8_t* data, TimeUs& time_us) {
    CanFrame frame;
    const std::uint8_t flags = data[3];
    time_us += data[0] * 100000 + data[1] * 256 + data[2];
    frame.time_us = time_us;
    if ((flags & 0x80) != 0) std::memcpy(&frame.time_us, data + 8, sizeof frame.time_us);
    frame.extended = (flags & 0x10) == 0;
    frame.remote = (flags & 0x20) != 0;
    frame.length = static_cast<std::uint8_t>((flags & 0x40) != 0 ? data[8] : 8 - (flags & 0xF) % 9);
    std::memcpy(&frame.id, data + 4, sizeof frame.id);
    std::memcpy(frame.data, data + 8, sizeof frame.data);
    return frame;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size < kSettingsBytes) return 0;
    BusSettings settings;
    settings.speed_from = data[0];
    settings.tilt_from = data[1];
    settings.weight_from = data[2];
    settings.cells = data[3];
    BusDecoder decoder(settings);
    BusWatch watch;
    BusEncoder encoder;
    TimeUs time_us = 0;
    TimeUs newest_us = -kMostTimeUs;
    for (std::size_t at = kSettingsBytes; at + kFrameBytes <= size; at += kFrameBytes) {
        const CanFrame frame = frame_of(data + at, time_us);
        const FrameResult result = decoder.take(frame);
        watch.see(frame, result, decoder);
        promise(decoder.sample_count() <= BusDecoder::kMostSamples);
        promise(decoder.sample_count() == 0 || result == FrameResult::taken);
        for (int i = 0; i < decoder.sample_count(); ++i) {
            const Sample& sample = decoder.sample(i);
            promise(check(sample) == FeedResult::taken);
            promise(sample.time_us >= newest_us);
            newest_us = sample.time_us;
            promise(watch.age_us(sample.channel, newest_us) == 0);
            promise(encoder.encode(sample) >= 1);
        }
        promise(!watch.flooded(newest_us) || watch.most_per_s() > BusWatch::kFloodPerS);
    }
    return 0;
}
