// Bytes as a receiver's line, a millisecond each.
#include "fuzz/entry.hpp"
#include "podrate/bus/nmea_sentence.hpp"

using namespace podrate;
using namespace podrate::bus;
using test::promise;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    NmeaDecoder decoder;
    NmeaLine line;
    for (std::size_t i = 0; i < size; ++i) {
        const auto time_us = static_cast<TimeUs>(i) * 1000;
        const FrameResult result = decoder.take(time_us, data[i]);
        const NmeaLine::Got got = line.put(data[i]);
        promise((result == FrameResult::incomplete) == (got == NmeaLine::Got::nothing));
        promise((result == FrameResult::malformed) == (got == NmeaLine::Got::broken));
        promise(line.length() <= NmeaLine::kMost);
        promise(decoder.sample_count() == 0 || result == FrameResult::taken);
        for (int k = 0; k < decoder.sample_count(); ++k) {
            promise(check(decoder.sample(k)) == FeedResult::taken);
            promise(decoder.sample(k).time_us == time_us);
        }
    }
    return 0;
}
