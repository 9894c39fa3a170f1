// The way back, from samples to frames: for logs rewritten and machines simulated.
#pragma once

#include <cstdint>

#include "podrate/bus/can_frame.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

struct EncoderSettings {
    std::uint8_t source = 0x80;  // address that the frames come from
    // As in BusSettings
    std::uint16_t hopper_element = 0;
    std::uint16_t first_cell_element = 1;
    std::uint16_t reel_element = 0;
};

// What BusDecoder makes of the frames is the sample again, to the resolution of its message:
//   weight   process data 75, 0.001 kg: of the hopper, or a frame for each of several cells
//   speed    65097, 0.001 m/s, forward           position  129025, 1e-7 degrees
//   heading  129026, 1e-4 rad, 0 to 2 pi         tilt      127257, 1e-4 rad
//   reel     process data 141                    hits      our own message, cumulative: the first is its
//   start
// A tray has no message. 112 bytes of state.
class BusEncoder {
  public:
    static constexpr int kMostFrames = 4;

    explicit BusEncoder(const EncoderSettings& settings = {}) : settings_(settings) {}

    // Frames of that sample, with its time: 0 where its channel has none, or where check() refuses it.
    int encode(const Sample& sample);
    // The drum's speed alone, 0 to 8,031.875 rpm by steps of 0.125.
    int encode_drum(TimeUs time_us, float rpm);
    // The claim of the source's address by that NAME.
    int encode_claim(TimeUs time_us, std::uint64_t name);

    // index: 0 to what encode() returned, less 1
    [[nodiscard]] const CanFrame& frame(int index) const { return frames_[index & (kMostFrames - 1)]; }

  private:
    std::uint8_t* add(TimeUs time_us, std::uint32_t pgn, std::uint8_t priority);
    void add_process_data(TimeUs time_us, int element, std::uint16_t entry, std::int64_t value);

    EncoderSettings settings_;
    CanFrame frames_[kMostFrames];
    int count_ = 0;
    std::uint32_t hits_ = 0;
};

}  // namespace podrate::bus
