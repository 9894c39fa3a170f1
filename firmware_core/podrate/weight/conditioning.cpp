#include "podrate/weight/conditioning.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"
#include "podrate/weight/gravity.hpp"

namespace podrate {
namespace {

using namespace choices::stuck;

Real sin2_of(Real lat_deg) {
    const Real s = math::sin_cos(math::deg_to_rad(lat_deg)).sin;
    return s * s;
}

float sum_of(const Sample& weight) {
    float sum = 0.0F;
    for (int i = 0; i < weight.count; ++i) sum += weight.value[i];
    return sum;
}

}  // namespace

WeightConditioner::WeightConditioner(const Parameters& p)
    : zero_variance_kg2_(p.zero_start_sd_kg * p.zero_start_sd_kg),
      calibration_sin2_(sin2_of(p.calibration_lat_deg)),
      drift_variance_per_h_(p.zero_drift_kg * p.zero_drift_kg),
      residue_kg_(p.tip_residue_kg),
      residue_variance_(kResidueSdShare * kResidueSdShare * p.tip_residue_kg * p.tip_residue_kg) {}

void WeightConditioner::set_tilt(const Sample& tilt) {
    const Real pitch = math::deg_to_rad(static_cast<Real>(tilt.value[0]));
    const Real roll = math::deg_to_rad(static_cast<Real>(tilt.value[1]));
    tilt_share_ = math::sin_cos(pitch).cos * math::sin_cos(roll).cos;
}

void WeightConditioner::set_latitude(Real lat_deg) {
    gravity_share_ = normal_gravity_mps2(sin2_of(lat_deg)) / normal_gravity_mps2(calibration_sin2_);
}

Real WeightConditioner::condition(const Sample& weight) {
    return cells_.sum_kg(weight) / (tilt_share_ * gravity_share_) - zero_kg_;
}

void WeightConditioner::judge_stuck(const Sample& weight, bool moving, Real flow_kgps) {
    const float sum = sum_of(weight);
    if (sum != last_sum_ || (!moving && !stuck_)) {
        last_sum_ = sum;
        same_since_us_ = weight.time_us;
        same_count_ = 0;
        same_flow_kgps_ = flow_kgps;
        stuck_ = false;
        return;
    }
    if (same_count_ < kStuckReadings) ++same_count_;
    const TimeUs same_us = weight.time_us - same_since_us_;
    // A coarse or damped indicator may well show the same for some seconds: judged by the peas that should
    // have shown.
    const bool peas_missing = same_flow_kgps_ * static_cast<Real>(same_us) / Real(1e6) > kStuckKg;
    if (same_count_ >= kStuckReadings && same_us > kStuckUs && (peas_missing || same_us > kStuckLongUs))
        stuck_ = true;
}

bool WeightConditioner::repeats(TimeUs now_us) const {
    return same_count_ >= kRepeats && now_us - same_since_us_ > kRepeatsUs;
}

Real WeightConditioner::zero_variance_kg2(TimeUs time_us) const {
    if (!zero_timed_ || time_us <= zero_time_us_) return zero_variance_kg2_;
    const Real hours = static_cast<Real>(time_us - zero_time_us_) / Real(3.6e9);
    return zero_variance_kg2_ + drift_variance_per_h_ * hours;
}

Real WeightConditioner::take_zero(TimeUs time_us, Real mass_kg, Real mass_variance_kg2) {
    const Real before = zero_variance_kg2(time_us);
    const Real gain = before / (before + residue_variance_ + mass_variance_kg2);
    zero_kg_ += gain * (mass_kg - residue_kg_);
    zero_variance_kg2_ = (Real(1) - gain) * before;
    zero_time_us_ = time_us;
    zero_timed_ = true;
    return -gain * (mass_kg - residue_kg_);
}

}  // namespace podrate
