// A frame as it came off the bus.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::bus {

struct CanFrame {
    TimeUs time_us = 0;     // when it came, by the receiver's clock
    std::uint32_t id = 0;   // 11 or 29 bits
    bool extended = false;  // 29 bits
    bool remote = false;
    std::uint8_t length = 0;  // 0 to 8
    std::uint8_t data[8] = {};
};

}  // namespace podrate::bus
