// What is wrong with the bus: silence, a flood, quantities that no longer come, a controller that has given
// up.
#pragma once

#include <cstdint>

#include "podrate/bus/bus_decoder.hpp"

namespace podrate::bus {

// As the CAN controller tells it: errors beyond 127, or so many that it is off the bus (ISO 11898-1).
enum class Controller : std::uint8_t { active, passive, off };

// 136 bytes of state; costs the same for each frame.
class BusWatch {
  public:
    static constexpr TimeUs kSilentUs = kSecondUs;
    // Frames a second: more than 1,900 with 8 bytes don't fit 250 kbit/s, a busy one carries a third.
    static constexpr int kFloodPerS = 2000;

    // After each frame, with what the decoder made of it.
    void see(const CanFrame& frame, FrameResult result, const BusDecoder& decoder);
    void controller(Controller state) { controller_ = state; }

    // No frame for a second, or none yet.
    [[nodiscard]] bool silent(TimeUs now_us) const;
    // Since a sample of that channel came; -1: none yet.
    [[nodiscard]] TimeUs age_us(Channel channel, TimeUs now_us) const;
    [[nodiscard]] Controller controller() const { return controller_; }
    // In the second before now there were more than kFloodPerS.
    [[nodiscard]] bool flooded(TimeUs now_us) const;
    [[nodiscard]] int most_per_s() const { return most_per_s_; }
    // Frames so far; stays at its end rather than begin anew.
    [[nodiscard]] std::uint32_t count(FrameResult result) const;

  private:
    static constexpr int kChannels = 8;
    TimeUs heard_us_ = 0;
    TimeUs sample_us_[kChannels] = {};
    TimeUs second_us_ = 0;  // when the present second began
    std::uint32_t counts_[kFrameResults] = {};
    int in_second_ = 0;
    int most_per_s_ = 0;
    unsigned seen_ = 0;  // a bit for each channel
    bool any_ = false;
    bool flood_ = false;  // the second before was one
    Controller controller_ = Controller::active;
};

}  // namespace podrate::bus
