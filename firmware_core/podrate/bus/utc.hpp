// What the time is, told by a receiver, against the clock that stamps the frames.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::bus {

inline constexpr TimeUs kDayUs = 86400 * kSecondUs;
inline constexpr std::int64_t kFirstDay = 7305;  // 1990-01-01, as days since 1970

// Add the offset to a frame's time and it is UTC.
struct UtcOffset {
    bool known = false;
    TimeUs offset_us = 0;     // newest told; late by what the message took
    TimeUs told_us = 0;       // by the frames' clock
    std::uint16_t steps = 0;  // how often it leapt by more than kStepUs: a clock was set
};

class UtcClock {
  public:
    // A leap second and the wavering of messages are less; 32 bytes of state.
    static constexpr TimeUs kStepUs = 1500000;

    void tell(TimeUs time_us, TimeUs utc_us);
    [[nodiscard]] const UtcOffset& offset() const { return offset_; }

  private:
    UtcOffset offset_;
};

// Days since 1970-01-01 of a date of the Gregorian calendar, years 1970 to 2100; -1 where there is no such
// day.
std::int64_t days_of(int year, int month, int day);

}  // namespace podrate::bus
