// Puts messages of more than 8 bytes together again: NMEA 2000's fast packet (layout as in canboat).
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::bus {

// Each frame begins with a count of messages (3 bits) and of frames within one (5 bits); the first goes on
// with the length and 6 bytes, the others bring 7. A message whose frames do not follow one another is
// dropped: what comes next is a whole one again. 232 bytes of state.
class FastPackets {
  public:
    static constexpr int kSlots = 4;   // messages under way at a time; the one longest silent makes room
    static constexpr int kKept = 34;   // bytes of a message: what it brings beyond is counted, not kept
    static constexpr int kMost = 223;  // bytes
    static constexpr TimeUs kTimeOutUs = 750000;  // from one frame to the next (from memory)

    // True where that frame made a message whole.
    bool add(TimeUs time_us, std::uint8_t source, std::uint32_t pgn, const std::uint8_t (&data)[8]);

    // The message that became whole last, until the next call of add().
    [[nodiscard]] const std::uint8_t* bytes() const { return slots_[whole_].bytes; }
    [[nodiscard]] int length() const { return slots_[whole_].length; }

    // Somebody else has taken that address.
    void forget(std::uint8_t source);

  private:
    struct Slot {
        TimeUs heard_us = 0;
        std::uint32_t pgn = 0;
        std::uint8_t source = 0;
        std::uint8_t message = 0;
        std::uint8_t next = 0;  // the frame waited for; 0: free
        std::uint8_t length = 0;
        std::uint8_t bytes[kKept] = {};
    };
    static bool follows(const Slot& slot, TimeUs time_us, int message, int number);
    int slot_of(std::uint8_t source, std::uint32_t pgn) const;
    int slot_for(std::uint8_t source, std::uint32_t pgn) const;

    Slot slots_[kSlots];
    int whole_ = 0;
};

}  // namespace podrate::bus
