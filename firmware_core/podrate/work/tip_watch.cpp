#include "podrate/work/tip_watch.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::tips;

TipWatch::TipWatch(const Parameters& p) : rate_kgps_(p.tip_rate_kgps) {}

void TipWatch::reset() {
    phase_ = Phase::idle;
    started_ = false;
    suspected_ = false;
}

void TipWatch::smooth(TimeUs time_us, Real weight_kg) {
    if (!started_) {
        smoothed_kg_ = weight_kg;
        for (Past& past : pasts_) past = {time_us, weight_kg};
        started_ = true;
    } else {
        if (last_us_ - pasts_[0].time_us >= kPastUs) {
            for (int i = kPasts - 1; i > 0; --i) pasts_[i] = pasts_[i - 1];
            pasts_[0] = {last_us_, smoothed_kg_};
        }
        const Real dt_s = seconds(time_us - last_us_);
        smoothed_kg_ += (weight_kg - smoothed_kg_) * (Real(1) - math::exp(-dt_s / kSmoothS));
    }
    last_us_ = time_us;
}

// Over the last second or so; on a slow log from one reading to the next.
Real TipWatch::slope_kgps(TimeUs time_us) const {
    int from = 0;
    while (from + 1 < kPasts && time_us - pasts_[from].time_us < kSecondUs) ++from;
    const TimeUs span_us = time_us - pasts_[from].time_us;
    if (span_us <= 0) return Real(0);
    return (smoothed_kg_ - pasts_[from].smoothed_kg) / seconds(span_us);
}

TipWatch::Event TipWatch::watch_idle(TimeUs time_us, Real residual_kg, Real residual_sd_kg) {
    const Real surprise = kSurpriseSd * residual_sd_kg;
    if (residual_kg > -(surprise > kSurpriseKg ? surprise : kSurpriseKg)) {
        suspected_ = false;
        return Event::none;
    }
    if (!suspected_) {
        suspected_ = true;
        suspected_us_ = time_us;
    }
    if (time_us - suspected_us_ < kConfirmUs || slope_kgps(time_us) > -rate_kgps_) return Event::none;
    phase_ = Phase::falling;
    suspected_ = false;
    lowest_kg_ = smoothed_kg_;
    lowest_us_ = time_us;
    return Event::began;
}

TipWatch::Event TipWatch::watch_falling(TimeUs time_us) {
    if (smoothed_kg_ < lowest_kg_ - kStillFallingKg) {
        lowest_kg_ = smoothed_kg_;
        lowest_us_ = time_us;
    }
    if (time_us - lowest_us_ < kBottomUs) return Event::none;
    phase_ = Phase::settling;
    lowest_us_ = time_us;
    return Event::bottom;
}

TipWatch::Event TipWatch::watch(TimeUs time_us, Real weight_kg, Real residual_kg, Real residual_sd_kg) {
    smooth(time_us, weight_kg);
    switch (phase_) {
        case Phase::idle: return watch_idle(time_us, residual_kg, residual_sd_kg);
        case Phase::falling: return watch_falling(time_us);
        case Phase::settling: {
            const Event fall = watch_idle(time_us, residual_kg, residual_sd_kg);
            if (fall == Event::began) return Event::none;  // it falls again: still the same tip
            if (time_us - lowest_us_ < kSettleUs) return Event::none;
            phase_ = Phase::idle;
            return Event::settled;
        }
    }
    return Event::none;
}

}  // namespace podrate
