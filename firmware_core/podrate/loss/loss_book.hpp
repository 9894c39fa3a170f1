// What was lost so far, by what is known of the loss now.
#pragma once

#include "podrate/loss/loss_curve.hpp"
#include "podrate/loss/loss_outlook.hpp"
#include "podrate/loss/passed_feed.hpp"
#include "podrate/math/compensated_sum.hpp"
#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"

namespace podrate {

// Peas lost over a run, with their share of collected + lost.
struct LossSoFar {
    Real collected_kg = Real(0);
    Real lost_kg = Real(0);
    Real drum_kg = Real(0);  // of those, in the drum
    LossShares shares;
    Real ln_hazard_sd = Real(0);  // of the mean drum loss
};

// Keeps the peas that passed, by the rate at which they did: a loss curve learnt later then tells the loss of
// the whole run anew, where a running sum would keep what was thought at first.
class LossBook {
  public:
    // feed_per_pea: haulm and peas for each pea taken in.
    LossBook(Real rated_feed_kgps, Real feed_per_pea);

    // Peas that passed at that rate, kg/s at the cut, where the drum lost exp(ln_excess) times what its curve
    // says.
    void add(Real passed_kg, Real passed_kgps, Real ln_excess);

    // `now`: what is believed at present; its doubts about level and picking hold for the run.
    [[nodiscard]] LossSoFar so_far(const LossCurve<Real>& curve, Real level_variance,
                                   Real ln_picking_variance, Real covariance) const;

    // All that was added.
    [[nodiscard]] Real passed_kg() const;

    // Over a power cut. What was booked after the bins were written is put where the mean is.
    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from, Real booked_kg);

  private:
    static constexpr int kBins = RetainedLearnt::kBins;
    math::CompensatedSum<Real> passed_kg_[kBins];
    math::CompensatedSum<Real> excess_kg_[kBins];  // each kg times exp(ln_excess)
    Real bin_kgps_;
    Real feed_per_pea_;
};

}  // namespace podrate
