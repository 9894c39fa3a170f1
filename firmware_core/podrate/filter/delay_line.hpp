// What the swath took in over the last 25 s, so that the flow can be told what was cut a dead time ago.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// Area by time in bins of 0.1 s; within a bin the rate counts as constant.
class DelayLine {
  public:
    // Spreads `area_m2` evenly over [from, to). Calls come in order of time; what lies between two calls is
    // empty.
    void add(TimeUs from_us, TimeUs to_us, Real area_m2);

    // Area swept in [from, to), m2. Zero outside the last 25.6 s.
    [[nodiscard]] Real between(TimeUs from_us, TimeUs to_us) const;

    static constexpr TimeUs kReachUs = 25500000;  // how far back it remembers

  private:
    static constexpr std::int32_t kBins = 256;
    static constexpr std::int32_t kBinUs = 100000;
    // Time after the newest bin's beginning, held within what the bins reach: 32 bits do.
    [[nodiscard]] std::int32_t after_newest(TimeUs time_us) const;
    [[nodiscard]] int slot(std::int32_t bin) const { return (newest_slot_ + bin) & (kBins - 1); }
    void open_bins_to(TimeUs time_us);
    Real area_m2_[kBins] = {};
    TimeUs newest_us_ = 0;  // beginning of the newest bin
    std::int32_t newest_slot_ = 0;
};

}  // namespace podrate
