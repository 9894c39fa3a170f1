#include "podrate/loss/loss_knowledge.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::loss;

void LossKnowledge::worked(Real distance_m, Real area_rate_m2ps) {
    if (distance_m <= Real(0) || area_rate_m2ps <= Real(0)) return;
    const Real ln_rate = math::ln(area_rate_m2ps);
    over_m_ = math::clamp(over_m_ + distance_m, Real(0), kSpreadOverM);
    const Real share = distance_m / over_m_;
    const Real off = ln_rate - mean_;
    mean_ += share * off;
    variance_ += share * ((Real(1) - share) * off * off - variance_);
}

Real LossKnowledge::speed_spread() const {
    return math::sqrt(variance_);
}

}  // namespace podrate
