#include "podrate/work/surprise_watch.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::surprise;

SurpriseWatch::SurpriseWatch(const Parameters& p)
    : capacity_kg_(p.hopper_capacity_kg), tip_least_kg_(p.tip_least_kg) {}

void SurpriseWatch::reset() {
    surprised_ = false;
    impossible_ = false;
    trend_kg_ = Real(0);
    last_kg_ = Real(0);
}

void SurpriseWatch::begin(TimeUs time_us, TimeUs since_us, Real residual_kg, Real residual_sd_kg) {
    const Real step_kg = math::abs(residual_kg - last_kg_);
    const Real since_s = seconds(since_us);
    surprised_ = true;
    since_time_us_ = time_us;
    after_gap_ = since_us > kGapUs;
    impossible_ = !after_gap_ &&
                  step_kg > kStepSd * residual_sd_kg + capacity_kg_ * (kStepShare + kPourShare * since_s);
    steady_ = !after_gap_ && trend_kg_ * residual_kg > Real(0) &&
              math::abs(trend_kg_) > kSteadyShare * math::abs(residual_kg);
}

SurpriseWatch::Verdict SurpriseWatch::judge(TimeUs time_us, TimeUs since_us, Real residual_kg,
                                            Real residual_sd_kg) {
    const Real limit_kg = kLimitSd * residual_sd_kg + kLimitKg;
    if (math::abs(residual_kg) < limit_kg) {
        surprised_ = false;
        const Real share = math::clamp(seconds(since_us) / kTrendMemoryS, Real(0), Real(1));
        trend_kg_ += share * (residual_kg - trend_kg_);
        last_kg_ = residual_kg;
        return Verdict::trust;
    }
    if (!surprised_) begin(time_us, since_us, residual_kg, residual_sd_kg);
    if (time_us - since_time_us_ < (impossible_ ? kDropOutLastsUs : kLastsUs)) return Verdict::wait;
    surprised_ = false;
    trend_kg_ = Real(0);
    last_kg_ = Real(0);
    if (after_gap_ && residual_kg > Real(0)) return Verdict::filled;
    if (after_gap_ && residual_kg < -tip_least_kg_) return Verdict::tipped;
    return steady_ && residual_kg > Real(0) ? Verdict::crept : Verdict::jumped;
}

}  // namespace podrate
