#include "podrate/filter/loss_outlook.hpp"

#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

LossOutlook::LossOutlook(const Parameters& p)
    : picking_low_(p.picking_loss_low_share < p.picking_loss_share ? p.picking_loss_low_share
                                                                   : p.picking_loss_share),
      picking_high_(p.picking_loss_high_share > p.picking_loss_share ? p.picking_loss_high_share
                                                                     : p.picking_loss_share),
      level_reach_(Real(1.6448536) * p.drum_loss_ln_sd) {}

LossShare LossOutlook::at(const LossCurve<Real>& curve, Real feed_kgps) const {
    LossShare loss;
    loss.share = curve.loss_share(feed_kgps);
    LossCurve<Real> other = curve;
    other.level_a = curve.level_a - level_reach_;
    const Real drum_low = loss.share - other.loss_share(feed_kgps);
    other.level_a = curve.level_a + level_reach_;
    const Real drum_high = other.loss_share(feed_kgps) - loss.share;
    const Real picking_low = curve.picking_share - picking_low_;
    const Real picking_high = picking_high_ - curve.picking_share;
    loss.low = loss.share - math::sqrt(drum_low * drum_low + picking_low * picking_low);
    loss.high = loss.share + math::sqrt(drum_high * drum_high + picking_high * picking_high);
    loss.low = math::clamp(loss.low, Real(0), Real(1));
    loss.high = math::clamp(loss.high, Real(0), Real(1));
    return loss;
}

}  // namespace podrate
