#include "podrate/loss/loss_excess.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::loss;

void LossExcess::walk(Real distance_m) {
    if (blocks_ == 0 || distance_m <= Real(0)) return;
    const Real likeness = math::exp(-distance_m / kExcessLengthM);
    ratio_ *= likeness;
    fade_ = likeness * likeness * fade_ + Real(1) - likeness * likeness;
}

void LossExcess::hear(Real hits_per_s, Real block_s, Real expected_kgps) {
    const Real expected = expected_kgps * block_s;
    if (expected <= Real(0)) return;
    const Real count = hits_per_s * block_s + Real(0.5);
    const Real ln_ratio = math::ln(count / expected);
    if (blocks_ < kGainBlocks) ++blocks_;
    ln_gain_ += (ln_ratio - ln_gain_) / static_cast<Real>(blocks_);
    const Real variance = kRatioSd * kRatioSd * fade_;
    const Real noise = Real(1) / count + kHitsSd * kHitsSd;
    const Real gain = variance / (variance + noise);
    ratio_ += gain * (ln_ratio - ln_gain_ - ratio_);
    ratio_ = math::clamp(ratio_, -kMostExcess, kMostExcess);
    fade_ *= Real(1) - gain;
}

Real LossExcess::sd() const {
    return heard() ? kRatioSd * math::sqrt(fade_) : kUnheardSd;
}

}  // namespace podrate
