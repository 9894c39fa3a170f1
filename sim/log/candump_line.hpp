// One line of can-utils' candump text, in either of its layouts:
//   (1436509052.249713) vcan0 0CFE481C#0540E2402001FF00         candump -l, -L
//   (1436509052.249713)  vcan0  0CFE481C   [8]  05 40 E2 40     candump, candump -t a
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "podrate/bus/can_frame.hpp"

namespace podrate::sim {

enum class CandumpKind : std::uint8_t {
    frame,        // a classical frame, data or remote
    can_fd,       // CAN FD: not used by what we read
    error_frame,  // the controller's own word, and the lines that explain it
    blank,
    bad,  // `fault` says why
};

enum class CandumpStamp : std::uint8_t {
    none,
    absolute,  // seconds since 1970, ten digits or more: -l, -L, -t a
    relative,  // fewer digits: since the frame before (-t d) or since the first (-t z)
    dated,     // a date in the logger's local time: -t A
};

struct CandumpLine {
    CandumpKind kind = CandumpKind::bad;
    CandumpStamp stamp = CandumpStamp::none;
    bus::CanFrame frame;         // time_us is the stamp's; 0 where there is none or a date
    std::string_view interface;  // part of the line
    const char* fault = "";
};

// Any bytes may stand in `line`. Trailing direction letters (R, T, B, E) and what candump -a adds are passed
// over.
CandumpLine parse_candump(std::string_view line);

// A frame's identifier as candump writes it.
std::string id_text(const bus::CanFrame& frame);

}  // namespace podrate::sim
