// The host's time for what is heard live.
#pragma once

#include <chrono>

#include "podrate/sample.hpp"

namespace podrate::sim {

// The time of day when it began, and from then on a clock that nobody sets.
class HostClock {
  public:
    [[nodiscard]] TimeUs now_us() const {
        const auto gone = std::chrono::steady_clock::now() - steady_;
        return wall_us_ + std::chrono::duration_cast<std::chrono::microseconds>(gone).count();
    }

  private:
    std::chrono::steady_clock::time_point steady_ = std::chrono::steady_clock::now();
    TimeUs wall_us_ = std::chrono::duration_cast<std::chrono::microseconds>(
                          std::chrono::system_clock::now().time_since_epoch())
                          .count();
};

}  // namespace podrate::sim
