// The flow filter: hopper mass, flow after the drum, local crop and its slowly moving mean.
#pragma once

#include "podrate/filter/kalman.hpp"
#include "podrate/filter/whiteness.hpp"
#include "podrate/loss/loss_belief.hpp"
#include "podrate/loss/loss_curve.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"

namespace podrate {

// What the swath took in over one step, a dead time before it.
struct Intake {
    Real dt_s = Real(0);
    Real area_m2 = Real(0);
    Real distance_m = Real(0);
    Real area_rate_change_m2ps2 = Real(0);  // how fast the area rate changes there
    Real answered_m2ps = Real(0);  // mean area rate while a driver answers to that crop; 0: not known
    // false: no speed, so the flow is followed from the weight alone, and the distance is a guess
    bool known = true;
};

// What a step let through, as far as the loss curve is known; 0 where the speed is not.
struct Passage {
    Real lost_kg = Real(0);
    Real passed_kgpm2 = Real(0);  // of the crop there, peas that will reach the hopper
    Real ahead_kgpm2 = Real(0);   // the same in the mean crop
};

// Extended Kalman filter. The crop is mean-reverting in distance (an Ornstein-Uhlenbeck process along the
// bout), so a change of speed shows in the flow at once and standing still does not blur the yield. Crop
// means the peas that reach the hopper at the usual feed, a mean over some hundred metres: what is lost on
// the way there no weight tells, and only another feed shows more or less of it. Learnt beside them, each as
// a difference from what was told, within bounds:
//   dead_time, ln_lag  the drum's, from the ramps at the ends of each pass
//   level              of the drum's loss curve, as ln: what falls with feed tells it, and tray checks do
//   misfit             how far the weight is led astray about that level, whatever by: trays do not see it.
//   It
//                      keeps the level's doubt honest, for no crop, haulm or driver is quite as modelled
//   reaction           of the driver, who slows down in heavy crop: d ln(crop)/d ln(area rate), negated
//   ln_picking         of the share that the reel leaves; trays alone tell it
class FlowFilter {
  public:
    enum State { mass, flow, ln_crop, ln_mean, dead_time, ln_lag, level, misfit, reaction, ln_picking, size };
    using Belief = Gaussian<Real, size>;
    static constexpr int kQuick = 6;  // mass to ln_lag: what is learnt of the loss is slow
    using Quick = Vector<Real, kQuick>;

    explicit FlowFilter(const Parameters& parameters);

    // First reading: the hopper's weight as read, the drum empty, the crop as expected.
    void start(Real mass_kg, Real mass_variance_kg2);

    Passage predict(const Intake& intake);

    // Robust: beyond `gate_sd` standard deviations a reading's pull stays constant (Huber). Returns the
    // innovation.
    // noise_variance: what the gain rests on; spread: what a single reading may be off by, for the gate, kg2.
    Innovation<Real> update(Real weight_kg, Real noise_variance_kg2, Real spread_kg2);

    // The mass is told anew and forgets how it was tied to the rest (a tip, a step, the end of an outage).
    void retell_mass(Real mass_kg, Real mass_variance_kg2);
    void shift_mass(Real by_kg) { belief_.mean(mass) += by_kg; }

    // Back to what it thought of flow, crop and drum earlier; its doubts stay.
    void recall(const Quick& earlier);

    // Remembers the drum as known now, and goes back to it: while the intake was lied about the drum has been
    // blamed.
    void keep_drum();
    void recall_drum();

    // More doubt about the flow, kg/s as sd (after an outage).
    void loosen_flow(Real sd_kgps);

    // A tray's count of the peas on the ground at a place passed earlier, kg/m2; `sd_share` of that. What
    // else may differ there: sd of ln(hazard), beside place.ln_excess.
    void update_tray(const PassedPlace& place, Real ground_kgpm2, Real sd_share, Real ln_excess_sd);

    // Peas that the drum loses of the mean crop by the curve, kg/s.
    [[nodiscard]] Real mean_drum_loss_kgps(Real area_rate_m2ps) const;
    // ln of the drum's hazard here over the curve's, where it loses exp(ln_ratio) times what it loses of the
    // mean crop.
    [[nodiscard]] Real ln_excess(Real ln_ratio, Real area_rate_m2ps) const;

    // Takes over what earlier days have taught of the loss.
    void begin_with(const LossMemory& memory);
    [[nodiscard]] LossMemory memory() const;

    // Over a power cut, before start(); the loss is left to begin_with(). same_crop: as before the cut.
    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from, bool same_crop);
    // The flow as it was last known.
    void resume_flow(Real flow_kgps, Real sd_kgps);

    [[nodiscard]] const Belief& belief() const { return belief_; }
    // The loss curve as believed; the misfit is no part of it.
    [[nodiscard]] LossCurve<Real> curve() const;
    [[nodiscard]] Real picking_share() const { return picking_share_ * picking_factor_; }
    // Share of the level's first doubt, as standard deviation, that is gone.
    [[nodiscard]] Real level_learnt() const;
    // Haulm and peas taken in at that area rate in the crop here.
    [[nodiscard]] Real feed_kgps(Real area_rate_m2ps) const {
        return feed_of(ln_crop_here(), area_rate_m2ps);
    }
    // What is believed of the loss at that area rate in the crop here.
    [[nodiscard]] LossBelief loss_belief(Real area_rate_m2ps) const;
    // The same in the mean crop ahead.
    [[nodiscard]] LossBelief loss_belief_ahead(Real area_rate_m2ps) const;

    // Peas that would reach the hopper from the local crop at `area_rate` m2/s, per area, kg/m2.
    [[nodiscard]] Real yield_kgpm2(Real area_rate_m2ps) const;
    // The same over the crop ahead: its mean, not this spot.
    [[nodiscard]] Real yield_ahead_kgpm2(Real area_rate_m2ps) const;
    // The drum's hazard at the usual feed.
    [[nodiscard]] Real usual_hazard() const;
    // Peas taken in, in the mean crop, kg/m2.
    [[nodiscard]] Real taken_in_kgpm2() const { return math::exp(belief_.mean(ln_mean) + usual_hazard()); }
    // Haulm and peas for each pea taken in, in the mean crop.
    [[nodiscard]] Real feed_per_pea() const { return feed_per_pea_; }
    // Variance of ln yield here.
    [[nodiscard]] Real ln_yield_variance(Real area_rate_m2ps) const;

    // The drum's dead time and lag as learnt so far, s.
    [[nodiscard]] Real dead_time_s() const { return dead_time_s_ + belief_.mean(dead_time); }
    [[nodiscard]] Real lag_s() const { return lag_s_ * lag_factor_; }
    // Spread of the crop along a bout as learnt so far, as ln.
    [[nodiscard]] Real crop_cv() const { return learnt_cv_; }

  private:
    static constexpr int kMoving =
        3;  // mass, flow and ln_crop come first: the rest stays as it is over a step
    using Moving = Eigen::Matrix<Real, kMoving, size>;
    // Share of the peas taken in that pass the drum at a feed, -d ln(that share)/d ln(feed), and the drum's
    // hazard where the curve decides it, 0 past the fold's bound.
    struct Answer {
        Real passed_share;
        Real fall;
        Real hazard;
    };
    [[nodiscard]] Answer answer_of(Real told_hazard, Real feed_kgps) const;
    [[nodiscard]] Answer answer_at(Real feed_kgps) const;
    [[nodiscard]] Real ln_crop_here() const {
        return belief_.mean(ln_crop) - belief_.mean(reaction) * eager_;
    }
    [[nodiscard]] Real feed_of(Real ln_crop_value, Real area_rate_m2ps) const;
    [[nodiscard]] LossBelief loss_of(Real ln_crop_value, State crop, Real area_rate_m2ps) const;
    void walk_crop(Real distance_m, Moving& jacobian, Vector<Real, size>& noise);
    void watch_driver(const Intake& intake);
    Answer refer_to_usual(const Intake& intake, Real mean_feed_kgps);
    [[nodiscard]] Real more_than_usual(const Answer& at_mean) const;
    void set_cv_ratio(Real ln_ratio);
    void keep_in_bounds();
    void work_out();
    void learn_crop_spread(const Innovation<Real>& innovation, Real noise_variance_kg2);
    [[nodiscard]] Real yield_of(Real ln_crop_value, Real area_rate_m2ps) const;
    Belief belief_;
    LossCurve<Real> curve_;  // as told
    Real picking_share_;
    Real ln_most_picking_;
    Real level_factor_ = Real(1);  // exp of level + misfit, ln_picking and ln_lag
    Real picking_factor_ = Real(1);
    Real lag_factor_ = Real(1);
    Real feed_per_pea_;
    Real fresh_share_;     // of width x distance, that no bout beside it has cut
    Real feed_with_crop_;  // d ln(feed)/d ln(crop) from one spot to another
    Real dead_time_s_;
    Real lag_s_;
    Real crop_length_m_;
    Real crop_cv_;  // as told
    Real learnt_cv_;
    Real patch_m_;
    Real ln_cv_ratio_ = Real(0);  // learnt, against what was told
    Real cv_reach_;
    int cv_words_ = 0;
    Whiteness whiteness_;
    Real since_update_s_ = Real(0);
    static constexpr int kDrum = 5;  // dead_time to reaction
    Vector<Real, kDrum> kept_mean_;
    Vector<Real, kDrum> kept_variance_;
    bool crop_shows_ = false;  // crop was on its way into the hopper over the last step
    Real eager_ = Real(0);     // ln of the driver's area rate against the usual one
    Real ln_usual_rate_ = Real(0);
    Real usual_over_m_ = Real(0);       // how far that has been learnt
    Real usual_unit_hazard_ = Real(0);  // at a level and misfit of 0
    Real referred_over_m_ = Real(0);
    Real mean_drift_variance_;
    Real flow_noise_share_;
    Real blind_flow_noise_;
    Real gate_sd_;
    Vector<Real, size> prior_mean_;
    Vector<Real, size> prior_variance_;
    Vector<Real, size - level> told_variance_;  // from level on, before any memory of earlier days
    Real prior_tie_ = Real(0);                  // covariance of level and ln_picking
};

}  // namespace podrate
