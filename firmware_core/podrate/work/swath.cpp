#include "podrate/work/swath.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::swath;

Swath::Swath(const Parameters& p)
    : intake_(p),
      width_m_(p.width_m),
      standing_speed_mps_(p.standing_speed_mps),
      hold_us_(microseconds(p.speed_hold_s)) {}

void Swath::fill(TimeUs to_us, Real mean_speed_mps) {
    if (to_us <= filled_us_) return;
    const bool working = intake_.taking_in(speed_mps_) && moving_;
    if (working) {
        const Real area_m2 = width_m_ * mean_speed_mps * seconds(to_us - filled_us_);
        line_.add(filled_us_, to_us, area_m2);
        new_area_m2_ += area_m2;
        slip_.roll(mean_speed_mps * seconds(to_us - filled_us_) / slip_.factor());
    } else if (moving_) {
        slip_.break_off();
    }
    filled_us_ = to_us;
}

void Swath::set_speed(TimeUs time_us, Real told_mps) {
    const Real speed_mps = told_mps * slip_.factor();
    if (any_speed_ && time_us - filled_us_ <= kBridgedUs) fill(time_us, (speed_mps_ + speed_mps) * Real(0.5));
    if (filled_us_ < time_us) filled_us_ = time_us;
    if (moving_ && intake_.taking_in(speed_mps) && any_speed_) {
        const Real share = math::clamp(seconds(time_us - speed_us_) / kUsualMemoryS, Real(0), Real(1));
        usual_speed_mps_ = usual_speed_mps_ > Real(0)
                               ? usual_speed_mps_ + share * (speed_mps - usual_speed_mps_)
                               : speed_mps;
    }
    any_speed_ = true;
    speed_us_ = time_us;
    speed_mps_ = speed_mps;
    moving_ = speed_mps > standing_speed_mps_ * (moving_ ? Real(1) : kRestartFactor);
}

bool Swath::assume_worked(TimeUs span_us) {
    if (!moving_ || !taking_in()) return false;
    line_.add(speed_us_ - span_us, speed_us_, width_m_ * speed_mps_ * seconds(span_us));
    return true;
}

void Swath::set_reel(TimeUs time_us, bool on) {
    advance(time_us);
    intake_.set_reel(on);
}

void Swath::set_heading(TimeUs time_us, Real heading_deg) {
    intake_.set_heading(time_us, heading_deg);
}

void Swath::set_place(std::int32_t lat_e7, std::int32_t lon_e7) {
    if (moving_ && taking_in()) slip_.pass(lat_e7, lon_e7);
}

void Swath::advance(TimeUs time_us) {
    if (!any_speed_) return;
    const TimeUs trusted_us = speed_us_ + hold_us_;
    fill(time_us < trusted_us ? time_us : trusted_us, speed_mps_);
}

bool Swath::speed_known(TimeUs time_us) const {
    return any_speed_ && time_us - speed_us_ <= hold_us_;
}

Real Swath::area_rate_m2ps() const {
    return moving_ && taking_in() ? width_m_ * speed_mps_ : Real(0);
}

Real Swath::take_area() {
    const Real area_m2 = new_area_m2_;
    new_area_m2_ = Real(0);
    return area_m2;
}

}  // namespace podrate
