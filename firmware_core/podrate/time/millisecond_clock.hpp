// A counter of milliseconds that starts again at 0 every 49.7 days, made into a time that never does.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate {

class MillisecondClock {
  public:
    // The first count told stands for `start_us`.
    explicit MillisecondClock(TimeUs start_us = 0) : now_us_(start_us) {}

    // The time at that count. Ask at least every 24 days; a count that goes back (read out of turn between
    // two tasks) counts as no step.
    TimeUs at(std::uint32_t count_ms);

    [[nodiscard]] TimeUs now_us() const { return now_us_; }

  private:
    TimeUs now_us_;
    std::uint32_t count_ms_ = 0;
    bool any_ = false;
};

}  // namespace podrate
