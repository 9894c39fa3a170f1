// What the swath took in over the last 25 s, so that the flow can be told what was cut a dead time ago.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// Area by time in bins of 0.1 s, a power of 2 of them; within a bin the rate counts as constant.
template <std::int32_t kBins>
class TimeBins {
  public:
    // Spreads `area_m2` evenly over [from, to). Calls come in order of time; what lies between two calls is
    // empty.
    void add(TimeUs from_us, TimeUs to_us, Real area_m2);

    // Area swept in [from, to), m2. Zero before what it remembers.
    [[nodiscard]] Real between(TimeUs from_us, TimeUs to_us) const;

    static constexpr std::int32_t kBinUs = 100000;
    static constexpr TimeUs kReachUs = TimeUs{kBins - 1} * kBinUs;  // how far back it remembers

  private:
    // Time after the newest bin's beginning, held within what the bins reach: 32 bits do.
    [[nodiscard]] std::int32_t after_newest(TimeUs time_us) const;
    [[nodiscard]] int slot(std::int32_t bin) const { return (newest_slot_ + bin) & (kBins - 1); }
    void open_bins_to(TimeUs time_us);
    Real area_m2_[kBins] = {};
    TimeUs newest_us_ = 0;  // beginning of the newest bin
    std::int32_t newest_slot_ = 0;
};

using DelayLine = TimeBins<256>;

}  // namespace podrate
