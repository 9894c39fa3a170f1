#include "podrate/weight/noise_follower.hpp"

#include "podrate/math/elementary.hpp"

namespace podrate {
namespace {

constexpr Real kMemoryS = Real(30);  // long enough to be steady to 6 % at 10 Hz, short enough for a new field
constexpr Real kClip =
    Real(9);  // one reading never counts as more than 3 sd: shocks are the robust update's work
constexpr Real kLeastKg2 = Real(0.01);  // 0.1 kg: a quantised standing scale is never believed to be perfect

}  // namespace

NoiseFollower::NoiseFollower(const Parameters& p)
    : moving_(p.weight_noise_moving_kg * p.weight_noise_moving_kg),
      still_(p.weight_noise_still_kg * p.weight_noise_still_kg) {}

void NoiseFollower::learn(bool moving, Real dt_s, Real residual_kg, Real state_variance_kg2) {
    Real& level = moving ? moving_ : still_;
    const Real share = math::clamp(dt_s / kMemoryS, Real(0), Real(0.1));
    const Real most = kClip * level + state_variance_kg2;
    const Real square = math::clamp(residual_kg * residual_kg, Real(0), most) - state_variance_kg2;
    level += share * (square - level);
    if (level < kLeastKg2) level = kLeastKg2;
}

}  // namespace podrate
