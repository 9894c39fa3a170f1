// What the filter thought over the last minute or so, for when its readings turn out to have been no
// readings.
#pragma once

#include "podrate/filter/flow_filter.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"
#include "podrate/work/load_keeper.hpp"

namespace podrate {

class LookBack {
  public:
    struct Moment {
        TimeUs time_us = 0;
        FlowFilter::Quick mean = FlowFilter::Quick::Zero();
        struct {
            math::CompensatedSum<Real> inflow_kg;
            math::CompensatedSum<Real> area_m2;
        } totals;
    };

    // Keeps a moment each five seconds.
    void remember(TimeUs time_us, const FlowFilter& filter, const RunningTotals& totals);
    void forget();

    // The newest moment not after `time_us`; nullptr where none is kept that is.
    [[nodiscard]] const Moment* before(TimeUs time_us) const;

  private:
    static constexpr int kMoments = 16;
    static constexpr TimeUs kEveryUs = 5 * kSecondUs;
    Moment moments_[kMoments];
    int newest_ = 0;
    int kept_ = 0;
};

}  // namespace podrate
