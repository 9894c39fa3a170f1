// Works the advice out, now and then.
#pragma once

#include "podrate/advice/advice.hpp"
#include "podrate/filter/flow_filter.hpp"
#include "podrate/parameters.hpp"

namespace podrate {

// The loss as a function of the speed in the mean crop ahead.
class SpeedOutlook {
  public:
    SpeedOutlook(const FlowFilter& filter, Real width_m);

    [[nodiscard]] Real feed_kgps(Real speed_mps) const { return feed_per_mps_ * speed_mps; }
    [[nodiscard]] Real loss_share(Real speed_mps) const { return curve_.loss_share(feed_kgps(speed_mps)); }
    // Peas into the hopper, kg/s, and left on the ground, kg/m2.
    [[nodiscard]] Real rate_kgps(Real speed_mps) const;
    [[nodiscard]] Real ground_kgpm2(Real speed_mps) const;

    // Highest speed whose loss is no more than `limit_share`; not known where picking alone loses more.
    [[nodiscard]] SpeedRange under(Real limit_share) const;
    // Speed at which that much comes; not known where no speed brings it.
    [[nodiscard]] SpeedRange for_rate(Real rate_kgps) const;
    // Speed from which on more speed brings fewer peas.
    [[nodiscard]] Real fold_mps() const { return fold_mps_; }

  private:
    [[nodiscard]] Real find_fold_mps() const;
    LossCurve<Real> curve_;
    Real taken_in_kgpm2_;
    Real standing_kgpm2_;
    Real width_m_;
    Real feed_per_mps_;
    Real usual_hazard_;
    Real ln_usual_hazard_;
    Real fold_mps_;
    const FlowFilter::Belief& belief_;
};

class Advisor {
  public:
    explicit Advisor(const Parameters& parameters);

    // Whether a second has passed since it looked.
    [[nodiscard]] bool due(TimeUs now_us) const { return !looked_ || now_us - looked_us_ >= kSecondUs; }
    // Looks again; at most once a second counts. speed_mps: now, for what faster and slower would bring.
    void look(TimeUs now_us, const FlowFilter& filter, Real speed_mps);

    [[nodiscard]] const Advice& advice() const { return advice_; }

  private:
    // Sets what binds and the interval; returns the speed to go for.
    Real choose_mps();
    void approach(Real target_mps, Real span_s);
    Real width_m_;
    Real loss_limit_share_;
    Real wanted_rate_kgps_;
    Real speed_least_mps_;
    Real speed_most_mps_;
    Advice advice_;
    bool looked_ = false;
    TimeUs looked_us_ = 0;
};

}  // namespace podrate
