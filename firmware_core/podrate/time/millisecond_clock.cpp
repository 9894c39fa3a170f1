#include "podrate/time/millisecond_clock.hpp"

namespace podrate {

TimeUs MillisecondClock::at(std::uint32_t count_ms) {
    constexpr std::uint32_t kHalf = 0x80000000U;
    const std::uint32_t step_ms = any_ ? count_ms - count_ms_ : 0U;
    if (step_ms >= kHalf) return now_us_;
    any_ = true;
    count_ms_ = count_ms;
    now_us_ += static_cast<TimeUs>(step_ms) * 1000;
    return now_us_;
}

}  // namespace podrate
