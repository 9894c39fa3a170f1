#include "podrate/work/look_back.hpp"

namespace podrate {

void LookBack::remember(TimeUs time_us, const FlowFilter& filter, const RunningTotals& totals) {
    if (kept_ > 0 && time_us - moments_[newest_].time_us < kEveryUs) return;
    newest_ = (newest_ + 1) % kMoments;
    moments_[newest_] = {
        time_us, filter.belief().mean.head<FlowFilter::kQuick>(), {totals.inflow_kg, totals.area_m2}};
    if (kept_ < kMoments) ++kept_;
}

void LookBack::forget() {
    kept_ = 0;
}

const LookBack::Moment* LookBack::before(TimeUs time_us) const {
    for (int back = 0; back < kept_; ++back) {
        const Moment& moment = moments_[(newest_ - back + kMoments) % kMoments];
        if (moment.time_us <= time_us) return &moment;
    }
    return nullptr;
}

}  // namespace podrate
