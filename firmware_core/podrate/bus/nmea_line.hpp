// Finds the sentences of NMEA 0183 in a stream of bytes.
#pragma once

#include <cstdint>

namespace podrate::bus {

// A sentence goes from $ to the end of its line and has a checksum: without one it is not believed. The
// standard allows 82 characters with the line's end, receivers write some more. 124 bytes of state.
class NmeaLine {
  public:
    static constexpr int kMost = 120;  // characters from $ to the checksum

    enum class Got : std::uint8_t {
        nothing,   // between sentences, or one under way
        sentence,  // text() holds it
        broken,    // cut short, too long, with characters it may not have, or a wrong checksum
    };
    Got put(std::uint8_t byte);

    // Between $ and *; until the next call of put().
    [[nodiscard]] const char* text() const { return text_; }
    [[nodiscard]] int length() const { return length_; }

  private:
    enum class At : std::uint8_t { between, text, high_digit, low_digit, line_end };
    Got give_up();

    char text_[kMost] = {};
    std::uint8_t length_ = 0;
    std::uint8_t sum_ = 0;   // of the characters so far, as the checksum counts them
    std::uint8_t told_ = 0;  // the checksum told
    At at_ = At::between;
};

}  // namespace podrate::bus
