// Whether a sample's time can be believed, before the estimator takes it for good.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate {

enum class TimeVerdict : std::uint8_t {
    good,
    out_of_range,  // before 0 or after kLatestUs
    back,          // before the newest time taken
    far_ahead,     // further ahead than 30 s: refused until later ones confirm it
    too_many,      // more than 200 samples of its channel within a second
};

// The estimator never goes back, so one wild stamp would shut out every good sample after it. A stamp more
// than 30 s ahead is therefore refused, and believed only when three later ones, each later than the one
// before and within 30 s of it, have come with no stamp near the old time between them: then there was a gap.
// So a gap costs three samples, and a wild stamp that is let in, 30 s at most.
class TimeGate {
  public:
    // The time now, by the clock that stamps the samples.
    explicit TimeGate(TimeUs now_us = 0) : newest_us_(now_us) {}

    TimeVerdict judge(TimeUs time_us, Channel channel);
    // The same for a mere passing of time.
    TimeVerdict judge(TimeUs time_us);

    [[nodiscard]] TimeUs newest_us() const { return newest_us_; }

  private:
    static constexpr int kChannels = 8;
    struct Pace {
        TimeUs second_us = 0;
        int count = 0;
    };
    TimeUs newest_us_;
    TimeUs ahead_us_ = 0;
    int waiting_ = 0;  // stamps far ahead that agree
    Pace paces_[kChannels];
};

}  // namespace podrate
