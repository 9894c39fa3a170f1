#include "podrate/alarm/blockage_watch.hpp"

#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::alarm;

BlockageWatch::BlockageWatch(Real limit_sd) : shortfall_(kBlockageK, limit_sd) {}

void BlockageWatch::add(Real dt_s, const Innovation<Real>& innovation, Real noise_variance_kg2) {
    const Real state_variance = innovation.variance - noise_variance_kg2;
    if (!block_.add(dt_s, innovation.residual, state_variance, noise_variance_kg2)) return;
    const Real off_sd = block_.mean() / math::sqrt(block_.variance());
    shortfall_.add(math::clamp(-off_sd, -kBlockageMostSd, kBlockageMostSd));
}

void BlockageWatch::reset() {
    shortfall_.reset();
    block_ = InnovationBlock();
}

}  // namespace podrate
