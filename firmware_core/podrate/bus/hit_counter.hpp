// From a counter of hits to new hits.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::bus {

// 16 bytes of state.
class HitCounter {
  public:
    static constexpr TimeUs kMostPerS = 5000;    // hits; dead times of some ms allow a tenth of it
    static constexpr TimeUs kSlack = 100;        // hits: the times of two frames waver
    static constexpr TimeUs kMostHits = 100000;  // the channel's range

    // Hits since the last call; 0 at the first, and where the counter has begun anew. count: modulo
    // kHitsModulus.
    float add(TimeUs time_us, std::uint32_t count);
    // Another sender's counter has nothing to do with this one.
    void reset() { any_ = false; }

  private:
    TimeUs heard_us_ = 0;
    std::uint32_t count_ = 0;
    bool any_ = false;
};

}  // namespace podrate::bus
