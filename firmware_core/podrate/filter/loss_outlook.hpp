// Loss share and its 90 % interval from what is believed of the loss curve.
#pragma once

#include "podrate/filter/loss_curve.hpp"
#include "podrate/parameters.hpp"
#include "podrate/real.hpp"

namespace podrate {

struct LossShare {
    Real share = Real(0);
    Real low = Real(0);
    Real high = Real(0);
};

// The interval joins the doubt about the drum's level (a normal in `a`) and about picking loss (a range), as
// if independent. Weight and speed alone narrow neither here, so it is wide, on purpose.
class LossOutlook {
  public:
    explicit LossOutlook(const Parameters& parameters);
    [[nodiscard]] LossShare at(const LossCurve<Real>& curve, Real feed_kgps) const;

  private:
    Real picking_low_;
    Real picking_high_;
    Real level_reach_;  // half the 90 % interval of a
};

}  // namespace podrate
