// From a receiver's NMEA 0183 to samples. Sentences as in the published examples that the tests hold.
#pragma once

#include <cstdint>

#include "podrate/bus/frame_result.hpp"
#include "podrate/bus/nmea_fields.hpp"
#include "podrate/bus/nmea_line.hpp"
#include "podrate/bus/sender_choice.hpp"
#include "podrate/bus/utc.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

// GGA, RMC and VTG of any talker but a maker's own. What is told by which, the best first:
//   position  GGA, RMC      speed, heading  RMC, VTG      UTC  RMC
// Only what was measured counts: neither dead reckoning nor what was typed in or simulated. A talker is a
// sender. 480 bytes of state.
class NmeaDecoder {
  public:
    static constexpr int kMostSamples = 3;  // from one sentence

    // A byte, with the time at which it came. `incomplete` between ends of lines, then what became of the
    // sentence; `malformed` too where the checksum is missing or wrong.
    FrameResult take(TimeUs time_us, std::uint8_t byte);

    // What the newest byte gave.
    [[nodiscard]] int sample_count() const { return count_; }
    // index: 0 to sample_count() - 1
    [[nodiscard]] const Sample& sample(int index) const {
        return samples_[index >= 0 && index < kMostSamples ? index : 0];
    }
    [[nodiscard]] const UtcOffset& utc_offset() const { return utc_.offset(); }

  private:
    FrameResult take_sentence(const NmeaFields& fields);
    FrameResult take_gga(const NmeaFields& fields);
    FrameResult take_rmc(const NmeaFields& fields);
    FrameResult take_vtg(const NmeaFields& fields);
    FrameResult take_place(const NmeaFields& fields, int first, int kind);
    FrameResult take_course(const NmeaField& course, int kind, bool moving);
    FrameResult give(SenderChoice& choice, int kind, const Sample& sample);

    NmeaLine line_;
    Sample samples_[kMostSamples];
    SenderChoice position_;
    SenderChoice speed_;
    SenderChoice heading_;
    SenderChoice time_;
    UtcClock utc_;
    TimeUs now_us_ = 0;
    SenderKey talker_ = kNoSender;
    std::uint8_t count_ = 0;
    bool any_ = false;
};

}  // namespace podrate::bus
