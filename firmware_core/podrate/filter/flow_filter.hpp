// The flow filter: hopper mass, flow after the drum, local crop and its slowly moving mean.
#pragma once

#include "podrate/filter/kalman.hpp"
#include "podrate/filter/loss_curve.hpp"
#include "podrate/filter/whiteness.hpp"
#include "podrate/parameters.hpp"
#include "podrate/real.hpp"

namespace podrate {

// What the swath took in over one step, a dead time before it.
struct Intake {
    Real dt_s = Real(0);
    Real area_m2 = Real(0);
    Real distance_m = Real(0);
    Real area_rate_change_m2ps2 = Real(0);  // how fast the area rate changes there
    // false: no speed, so the flow is followed from the weight alone, and the distance is a guess
    bool known = true;
};

// Extended Kalman filter. The crop is mean-reverting in distance (an Ornstein-Uhlenbeck process along the
// bout), so a change of speed shows in the flow at once and standing still does not blur the yield. Crop
// means peas standing, as far as weight can tell: its level carries whatever the loss curve's level is wrong
// by.
// The drum's dead time (as a difference from what was told, s) and lag (as ln of the ratio to what was told)
// are learnt from the ramps at the ends of each pass, within bounds.
class FlowFilter {
  public:
    enum State { mass, flow, ln_crop, ln_mean, dead_time, ln_lag, size };
    using Belief = Gaussian<Real, size>;

    explicit FlowFilter(const Parameters& parameters);

    // First reading: the hopper's weight as read, the drum empty, the crop as expected.
    void start(Real mass_kg, Real mass_variance_kg2);

    // Returns the peas lost over that step, as far as the loss curve is known, kg.
    Real predict(const Intake& intake);

    // Robust: beyond `gate_sd` standard deviations a reading's pull stays constant (Huber). Returns the
    // innovation.
    // noise_variance: what the gain rests on; spread: what a single reading may be off by, for the gate, kg2.
    Innovation<Real> update(Real weight_kg, Real noise_variance_kg2, Real spread_kg2);

    // The mass is told anew and forgets how it was tied to the rest (a tip, a step, the end of an outage).
    void retell_mass(Real mass_kg, Real mass_variance_kg2);
    void shift_mass(Real by_kg) { belief_.mean(mass) += by_kg; }

    // Back to what it thought of flow, crop and drum earlier; its doubts stay.
    void recall(const Vector<Real, size>& earlier);

    // Remembers the drum as known now, and goes back to it: while the intake was lied about the drum has been
    // blamed.
    void keep_drum();
    void recall_drum();

    // More doubt about the flow, kg/s as sd (after an outage).
    void loosen_flow(Real sd_kgps);

    [[nodiscard]] const Belief& belief() const { return belief_; }
    [[nodiscard]] const LossCurve<Real>& curve() const { return curve_; }

    // Peas that would reach the hopper from the local crop at `area_rate` m2/s, per area, kg/m2.
    [[nodiscard]] Real yield_kgpm2(Real area_rate_m2ps) const;
    // The same over the crop ahead: its mean, not this spot.
    [[nodiscard]] Real yield_ahead_kgpm2(Real area_rate_m2ps) const;
    [[nodiscard]] Real feed_kgps(Real area_rate_m2ps) const;

    // The drum's dead time and lag as learnt so far, s.
    [[nodiscard]] Real dead_time_s() const { return dead_time_s_ + belief_.mean(dead_time); }
    [[nodiscard]] Real lag_s() const;
    // Spread of the crop along a bout as learnt so far, as ln.
    [[nodiscard]] Real crop_cv() const;

  private:
    // Share of the peas that pass the drum at a feed, and d ln(peas passed)/d ln(feed).
    struct Answer {
        Real passed_share;
        Real steepness;
    };
    [[nodiscard]] Answer answer_at(Real feed_kgps) const;
    void walk_crop(Real distance_m, Square<Real, size>& jacobian, Vector<Real, size>& noise);
    void keep_in_bounds();
    void learn_crop_spread(const Innovation<Real>& innovation, Real noise_variance_kg2);
    [[nodiscard]] Real yield_of(Real ln_crop_value, Real area_rate_m2ps) const;
    Belief belief_;
    LossCurve<Real> curve_;
    Real feed_per_pea_;
    Real dead_time_s_;
    Real lag_s_;
    Real crop_length_m_;
    Real crop_cv_;
    Real patch_m_;
    Real ln_cv_ratio_ = Real(0);  // learnt, against what was told
    Real cv_reach_;
    int cv_words_ = 0;
    Whiteness whiteness_;
    Real since_update_s_ = Real(0);
    Real kept_dead_time_ = Real(0);
    Real kept_ln_lag_ = Real(0);
    Real kept_dead_time_variance_;
    Real kept_ln_lag_variance_;
    bool crop_shows_ = false;  // crop was on its way into the hopper over the last step
    Real mean_drift_variance_;
    Real flow_noise_share_;
    Real blind_flow_noise_;
    Real gate_sd_;
    Real prior_ln_crop_;
    Real prior_ln_variance_;
    Real dead_time_variance_;
    Real ln_lag_variance_;
};

}  // namespace podrate
