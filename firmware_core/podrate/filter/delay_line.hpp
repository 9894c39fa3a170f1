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
    static constexpr int kBins = 256;
    static constexpr TimeUs kBinUs = 100000;
    void open_bins_to(std::int64_t bin);
    Real area_m2_[kBins] = {};
    std::int64_t newest_bin_ = 0;
};

}  // namespace podrate
