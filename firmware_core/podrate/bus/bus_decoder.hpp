// From frames on the bus to samples for the estimator. No heap; the same frames give the same samples.
#pragma once

#include <cstdint>

#include "podrate/bus/can_frame.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

enum class FrameResult : std::uint8_t {
    taken,          // understood; samples() may hold some
    not_ours,       // a message nobody here needs
    not_available,  // understood, but the sender says that it does not know, or that it is broken
    out_of_range,   // a value that its definition does not allow
    other_sender,   // understood, but another sender of the same quantity is listened to
    incomplete,     // part of a longer message, or one whose parts did not fit together
    malformed,      // too short, remote, or otherwise no such message
    time_back,      // older than a frame taken before; nothing was done
};

// Which of several senders and messages is listened to.
struct BusSettings {
    std::uint8_t speed_from = 0xFF;     // source address; 0xFF: whoever is best and not silent
    std::uint8_t position_from = 0xFF;
    std::uint8_t tilt_from = 0xFF;
    std::uint8_t weight_from = 0xFF;
};

class BusDecoder {
  public:
    static constexpr int kMostSamples = 4;  // from one frame

    explicit BusDecoder(const BusSettings& settings = {});

    FrameResult take(const CanFrame& frame);

    // What the newest frame gave.
    [[nodiscard]] int sample_count() const;
    [[nodiscard]] const Sample& sample(int index) const;
};

}  // namespace podrate::bus
