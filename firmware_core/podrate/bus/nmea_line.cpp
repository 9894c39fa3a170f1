#include "podrate/bus/nmea_line.hpp"

namespace podrate::bus {
namespace {

int hex_digit(std::uint8_t byte) {
    if (byte >= '0' && byte <= '9') return byte - '0';
    if (byte >= 'A' && byte <= 'F') return byte - 'A' + 10;
    if (byte >= 'a' && byte <= 'f') return byte - 'a' + 10;
    return -1;
}

}  // namespace

NmeaLine::Got NmeaLine::give_up() {
    at_ = At::between;
    return Got::broken;
}

NmeaLine::Got NmeaLine::put(std::uint8_t byte) {
    if (byte == '$') {
        const bool cut = at_ != At::between;
        at_ = At::text;
        length_ = 0;
        sum_ = 0;
        return cut ? Got::broken : Got::nothing;
    }
    const int digit = hex_digit(byte);
    switch (at_) {
        case At::between: return Got::nothing;
        case At::text:
            if (byte == '*') {
                at_ = At::high_digit;
                return Got::nothing;
            }
            if (byte < 0x20 || byte > 0x7E || length_ >= kMost - 4) return give_up();
            text_[length_] = static_cast<char>(byte);
            ++length_;
            sum_ = static_cast<std::uint8_t>(sum_ ^ byte);
            return Got::nothing;
        case At::high_digit:
        case At::low_digit:
            if (digit < 0) return give_up();
            told_ = static_cast<std::uint8_t>(((told_ & 0xF) << 4) | digit);
            at_ = at_ == At::high_digit ? At::low_digit : At::line_end;
            return Got::nothing;
        case At::line_end: break;
    }
    at_ = At::between;
    const bool ended = byte == '\r' || byte == '\n';
    return ended && told_ == sum_ ? Got::sentence : Got::broken;
}

}  // namespace podrate::bus
