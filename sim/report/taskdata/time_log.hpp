// The binary time log of ISO 11783-10: what a machine's values were, second by second.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "podrate/sample.hpp"

namespace podrate::sim {

// A value, and which entry of the log's header it belongs to.
struct LoggedValue {
    std::uint8_t entry = 0;
    std::int32_t value = 0;
};

// A place on the globe, 1e-7 degrees, WGS 84, and how it was found.
struct LoggedPlace {
    std::int32_t lat_e7 = 0;
    std::int32_t lon_e7 = 0;
    std::uint8_t status = 1;  // 1: by satellites, of whatever grade; 4: RTK, fixed
};

// Appends one record. Its time is written as UTC, in ms since midnight and days since 1980-01-01, and is
// never before that day. `place`: null where the log's header has no position; there
// north, east and status are left empty. 255 values at most.
void append_record(std::string& bytes, TimeUs time_us, const LoggedPlace* place,
                   const std::vector<LoggedValue>& values);

}  // namespace podrate::sim
