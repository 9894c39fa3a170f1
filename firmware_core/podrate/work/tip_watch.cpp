#include "podrate/work/tip_watch.hpp"

#include "podrate/math/elementary.hpp"

namespace podrate {
namespace {

constexpr Real kFastS = Real(0.4);
constexpr Real kSlowS = Real(1.2);
constexpr Real kSurpriseSd = Real(5);
constexpr Real kSurpriseKg = Real(20);
constexpr TimeUs kConfirmUs = kSecondUs / 2;
constexpr Real kStillFallingKg = Real(3);  // a fall smaller than that in kBottomUs is the end of the tip
constexpr TimeUs kBottomUs = 2 * kSecondUs;
constexpr TimeUs kSettleUs =
    4 * kSecondUs;  // weighed that long after the bottom: sd of the rest then about 0.5 kg

}  // namespace

TipWatch::TipWatch(const Parameters& p) : rate_kgps_(p.tip_rate_kgps) {}

void TipWatch::reset() {
    phase_ = Phase::idle;
    started_ = false;
    suspected_ = false;
}

void TipWatch::smooth(TimeUs time_us, Real weight_kg) {
    if (!started_) {
        fast_kg_ = weight_kg;
        slow_kg_ = weight_kg;
        started_ = true;
    } else {
        const Real dt_s = static_cast<Real>(time_us - last_us_) / Real(1e6);
        fast_kg_ += (weight_kg - fast_kg_) * math::clamp(dt_s / kFastS, Real(0), Real(1));
        slow_kg_ += (weight_kg - slow_kg_) * math::clamp(dt_s / kSlowS, Real(0), Real(1));
    }
    last_us_ = time_us;
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
    const Real slope_kgps = (fast_kg_ - slow_kg_) / (kSlowS - kFastS);
    if (time_us - suspected_us_ < kConfirmUs || slope_kgps > -rate_kgps_) return Event::none;
    phase_ = Phase::falling;
    suspected_ = false;
    lowest_kg_ = fast_kg_;
    lowest_us_ = time_us;
    return Event::began;
}

TipWatch::Event TipWatch::watch_falling(TimeUs time_us) {
    if (fast_kg_ < lowest_kg_ - kStillFallingKg) {
        lowest_kg_ = fast_kg_;
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
        case Phase::idle:
            return watch_idle(time_us, residual_kg, residual_sd_kg);
        case Phase::falling:
            return watch_falling(time_us);
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
