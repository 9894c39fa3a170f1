#include "podrate/loss/loss_outlook.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::loss;

Share share_with_interval(Real share, Real ln_sd) {
    const Real wide = math::exp(choices::flow::kNinetyPctSds * ln_sd);
    return {share, share / wide, math::clamp(share * wide, Real(0), Real(1))};
}

LossShares loss_shares(const LossBelief& belief) {
    const Real hazard = math::exp(belief.ln_hazard);
    const Real passed = math::exp(-hazard);
    const Real picked = Real(1) - belief.picking_share;
    LossShares loss;
    const Real drum = picked * (Real(1) - passed);
    const Real total = Real(1) - picked * passed;
    // d total / d ln(hazard), d total / d ln(picking)
    const Real by_hazard = picked * passed * hazard;
    const Real by_picking = belief.picking_share * passed;
    const Real variance = by_hazard * by_hazard * belief.ln_hazard_variance +
                          Real(2) * by_hazard * by_picking * belief.covariance +
                          by_picking * by_picking * belief.ln_picking_variance;
    loss.ln_total_sd = math::sqrt(variance) / total;
    loss.total = share_with_interval(total, loss.ln_total_sd);
    const Real drum_ln_sd =
        drum > Real(0) ? by_hazard / drum * math::sqrt(belief.ln_hazard_variance) : Real(0);
    loss.drum = share_with_interval(drum, drum_ln_sd);
    loss.picking = share_with_interval(belief.picking_share, math::sqrt(belief.ln_picking_variance));
    return loss;
}

}  // namespace podrate
