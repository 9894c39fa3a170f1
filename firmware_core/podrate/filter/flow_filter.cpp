#include "podrate/filter/flow_filter.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::flow;

namespace {

Real ratio_sd(Real high, Real low, Real least) {
    const Real of_low = low > least ? low : least;
    const Real of_high = high > of_low ? high : of_low;
    return math::ln(of_high / of_low) / (Real(2) * kNinetyPctSds);
}

}  // namespace

FlowFilter::FlowFilter(const Parameters& p)
    : picking_share_(p.picking_loss_share > kLeastPicking ? p.picking_loss_share : kLeastPicking),
      ln_most_picking_(math::ln(kMostPicking / picking_share_)),
      feed_per_pea_((Real(1) + p.haulm_ratio) / (Real(1) - p.picking_loss_share)),
      fresh_share_(Real(1) -
                   (p.bout_overlap_m < p.width_m / Real(2) ? p.bout_overlap_m : p.width_m / Real(2)) /
                       p.width_m),
      feed_with_crop_(Real(1) + p.haulm_follows_crop * p.haulm_ratio / (Real(1) + p.haulm_ratio)),
      dead_time_s_(p.drum_dead_time_s),
      lag_s_(p.drum_lag_s),
      crop_length_m_(p.crop_length_m),
      crop_cv_(p.crop_cv),
      learnt_cv_(p.crop_cv),
      patch_m_(p.crop_patch_m),
      cv_reach_(p.crop_cv_ln_reach),
      mean_drift_variance_(p.crop_mean_drift * p.crop_mean_drift),
      flow_noise_share_(p.flow_noise_share),
      blind_flow_noise_(p.blind_flow_noise_kgps * p.blind_flow_noise_kgps),
      gate_sd_(p.weight_gate_sd),
      prior_mean_(Vector<Real, size>::Zero()),
      prior_variance_(Vector<Real, size>::Zero()) {
    curve_.picking_share = Real(0);
    curve_.level_a = LossCurve<Real>::level_for(p.drum_loss_share);
    curve_.rated_feed_kgps = p.rated_feed_kgps;
    curve_.steepness_kgps = p.feed_steepness_kgps;
    const auto prior = [this](State state, Real mean, Real sd) {
        prior_mean_(state) = mean;
        prior_variance_(state) = sd * sd;
    };
    const Real ln_taken_in = math::ln(p.crop_kgpm2 * (Real(1) - p.picking_loss_share));
    prior(ln_crop, ln_taken_in, crop_cv_);
    prior(ln_mean, ln_taken_in, p.crop_ln_sd);
    prior(dead_time, Real(0), p.drum_dead_time_sd_s);
    prior(ln_lag, Real(0), p.drum_lag_ln_sd);
    prior(level, Real(0), p.drum_loss_ln_sd);
    prior(misfit, Real(0), p.loss_misfit_ln_sd);
    prior(reaction, p.driver_reaction, p.driver_reaction_sd);
    prior(ln_picking, Real(0), ratio_sd(p.picking_loss_high_share, p.picking_loss_low_share, kLeastPicking));
    prior_variance_(flow) = kFlowStartVariance;
    told_variance_ = prior_variance_.tail<size - level>();
    start(Real(0), Real(1));
}

void FlowFilter::start(Real mass_kg, Real mass_variance_kg2) {
    belief_.mean = prior_mean_;
    belief_.mean(mass) = mass_kg;
    belief_.covariance.setZero();
    belief_.covariance.diagonal() = prior_variance_;
    belief_.covariance(mass, mass) = mass_variance_kg2;
    const Real of_mean = prior_variance_(ln_mean);
    belief_.covariance(ln_crop, ln_crop) += of_mean;
    belief_.covariance(ln_crop, ln_mean) = of_mean;
    belief_.covariance(ln_mean, ln_crop) = of_mean;
    belief_.covariance(level, ln_picking) = prior_tie_;
    belief_.covariance(ln_picking, level) = prior_tie_;
    keep_drum();
    work_out();
}

// exp() of what only a reading changes, kept since each step asks for them dozens of times.
void FlowFilter::work_out() {
    level_factor_ = math::exp(belief_.mean(level) + belief_.mean(misfit));
    picking_factor_ = math::exp(belief_.mean(ln_picking));
    lag_factor_ = math::exp(belief_.mean(ln_lag));
}

Passage FlowFilter::predict(const Intake& intake) {
    const Real dt = intake.dt_s;
    if (dt <= Real(0)) return {};
    since_update_s_ += dt;
    crop_shows_ = intake.known && intake.area_m2 > Real(0);
    Vector<Real, size>& x = belief_.mean;
    Moving jacobian = Moving::Identity();
    Vector<Real, size> noise = Vector<Real, size>::Zero();
    noise(mass) = kMassNoise * dt;

    if (!intake.known) {
        jacobian(mass, flow) = dt;
        x(mass) += x(flow) * dt;
        noise(flow) = blind_flow_noise_ * dt;
        walk_crop(intake.distance_m, jacobian, noise);
        predict_covariance(belief_, jacobian, noise);
        return {};
    }

    watch_driver(intake);
    const Real area_rate = intake.area_m2 / dt;
    const Real mean_taken_in = taken_in_kgpm2();
    const Answer at_mean = refer_to_usual(intake, feed_per_pea_ * mean_taken_in * area_rate);
    const Real lag_s = this->lag_s();
    const Real kept = math::exp(-dt / lag_s);
    const Real gone = Real(1) - kept;
    jacobian(mass, flow) = lag_s * gone;
    jacobian(flow, flow) = kept;

    // What enters the drum's lag, and how it answers to crop and loss (as ln) and to the area rate.
    const Real crop = math::exp(ln_crop_here() + usual_hazard());
    const Answer answer = answer_at(feed_of(ln_crop_here(), area_rate));
    const Real with_crop = Real(1) - answer.fall * feed_with_crop_;  // d ln(passed)/d ln(crop)
    const Real passed = crop * answer.passed_share;
    const Real inflow = passed * area_rate;
    const Real lost_kg = (crop / (Real(1) - picking_share()) * area_rate - inflow) * dt;
    const Real direct_s = dt - lag_s * gone;  // d mass / d inflow over the step
    const auto answers = [&](State state, Real per_inflow) {
        jacobian(mass, state) = per_inflow * direct_s;
        jacobian(flow, state) = per_inflow * gone;
    };
    answers(ln_crop, inflow * with_crop);
    answers(ln_mean, -inflow * answer.fall * (Real(1) - feed_with_crop_));
    answers(dead_time, -passed * (Real(1) - answer.fall) * intake.area_rate_change_m2ps2);
    const Real by_level = -inflow * more_than_usual(at_mean);
    answers(level, by_level);
    answers(misfit, by_level);
    answers(reaction, -inflow * with_crop * eager_);
    jacobian(mass, ln_lag) = (x(flow) - inflow) * (lag_s * gone - dt * kept);
    jacobian(flow, ln_lag) = (x(flow) - inflow) * kept * dt / lag_s;
    noise(dead_time) = kDeadTimeDrift * dt;
    noise(ln_lag) = kLagDrift * dt;
    if (crop_shows_) {
        noise(level) = kLevelDrift * dt;
        noise(misfit) = kMisfitDrift * dt;
    }
    walk_crop(intake.distance_m, jacobian, noise);
    const Real unexplained = flow_noise_share_ * (x(flow) > inflow ? x(flow) : inflow);
    noise(flow) = (unexplained * unexplained + kFlowNoise) * dt;
    if (intake.distance_m > Real(0)) {
        // Patches too small for the crop's model are noise of what comes in, spread by the drum.
        const Real patchy = inflow * gone;
        noise(flow) += patchy * patchy * patch_m_ / intake.distance_m;
    }
    x(mass) += inflow * dt + (x(flow) - inflow) * lag_s * gone;
    x(flow) = x(flow) * kept + inflow * gone;
    predict_covariance(belief_, jacobian, noise);
    return {lost_kg, passed, mean_taken_in * at_mean.passed_share};
}

// A driver who sees heavy crop slows down, so the speed against the usual one speaks of the crop.
void FlowFilter::watch_driver(const Intake& intake) {
    eager_ = Real(0);
    if (intake.answered_m2ps <= Real(0) || intake.distance_m <= Real(0)) return;
    const Real ln_rate = math::ln(intake.answered_m2ps);
    if (usual_over_m_ <= Real(0)) ln_usual_rate_ = ln_rate;
    usual_over_m_ = math::clamp(usual_over_m_ + intake.distance_m, Real(0), kUsualOverM);
    ln_usual_rate_ += intake.distance_m / usual_over_m_ * (ln_rate - ln_usual_rate_);
    eager_ = math::clamp(ln_rate - ln_usual_rate_, -kMostEager, kMostEager);
}

// Over some hundred metres the hazard at the crop's mean is averaged, per unit of level; what passes at that
// hazard is the crop's measure. As the average moves, the crop is told anew in it; what is taken in of it,
// and so its feed, stays.
FlowFilter::Answer FlowFilter::refer_to_usual(const Intake& intake, Real mean_feed_kgps) {
    const Real hazard = curve_.hazard(mean_feed_kgps);
    const Answer answer = answer_of(hazard, mean_feed_kgps);
    if (intake.area_m2 <= Real(0) || intake.distance_m <= Real(0)) return answer;
    const Real bounded = hazard < kMostUsualHazard ? hazard : kMostUsualHazard;
    Real step = bounded - usual_unit_hazard_;
    if (referred_over_m_ > Real(0)) step *= intake.distance_m / (referred_over_m_ + intake.distance_m);
    referred_over_m_ = math::clamp(referred_over_m_ + intake.distance_m, Real(0), kUsualOverM);
    const Real before = usual_hazard();
    usual_unit_hazard_ += step;
    const Real shift = usual_hazard() - before;
    belief_.mean(ln_crop) -= shift;
    belief_.mean(ln_mean) -= shift;
    return answer;
}

Real FlowFilter::usual_hazard() const {
    const Real hazard = usual_unit_hazard_ * level_factor_;
    return hazard < kMostUsualHazard ? hazard : kMostUsualHazard;
}

// How much the speed alone raises the hazard: what the crop's wobble seems to say of the level is left out,
// since a wrong spread of the crop, or haulm that follows it, says it just as loudly.
Real FlowFilter::more_than_usual(const Answer& at_mean) const {
    return at_mean.fall > Real(0) && at_mean.hazard > Real(0) ? at_mean.hazard - usual_hazard() : Real(0);
}

// A richer spot brings more haulm, but less for each pea.
Real FlowFilter::feed_of(Real ln_crop_value, Real area_rate_m2ps) const {
    if (area_rate_m2ps <= Real(0)) return Real(0);
    const Real mean = belief_.mean(ln_mean);
    const Real ln_taken_in = mean + feed_with_crop_ * (ln_crop_value - mean) + usual_hazard();
    return feed_per_pea_ * math::exp(ln_taken_in) * area_rate_m2ps;
}

// The crop reverts to its mean over that distance.
void FlowFilter::walk_crop(Real distance_m, Moving& jacobian, Vector<Real, size>& noise) {
    if (distance_m <= Real(0)) return;
    Vector<Real, size>& x = belief_.mean;
    const Real likeness = math::exp(-distance_m / crop_length_m_);
    jacobian(ln_crop, ln_crop) = likeness;
    jacobian(ln_crop, ln_mean) = Real(1) - likeness;
    const Real cv = crop_cv();
    noise(ln_crop) = cv * cv * (Real(1) - likeness * likeness);
    noise(ln_mean) = mean_drift_variance_ * distance_m;
    x(ln_crop) = likeness * x(ln_crop) + (Real(1) - likeness) * x(ln_mean);
    x(ln_crop) = math::clamp(x(ln_crop), kLnCropLow, kLnCropHigh);
}

Innovation<Real> FlowFilter::update(Real weight_kg, Real noise_variance_kg2, Real spread_kg2) {
    const Innovation<Real> innovation = innovation_of(belief_, mass, weight_kg, noise_variance_kg2);
    const Real limit =
        gate_sd_ * math::sqrt(belief_.covariance(mass, mass) +
                              (spread_kg2 > noise_variance_kg2 ? spread_kg2 : noise_variance_kg2));
    const Real size_of_residual = math::abs(innovation.residual);
    Real noise = noise_variance_kg2;
    if (size_of_residual > limit) noise += innovation.variance * (size_of_residual / limit - Real(1));
    update_scalar(belief_, mass, weight_kg, noise);
    learn_crop_spread(innovation, noise_variance_kg2);
    keep_in_bounds();
    return innovation;
}

// A crop more ruffled than thought makes the innovations run on, a smoother one makes them swing: the spread
// follows, fast at first, then over about an hour.
void FlowFilter::learn_crop_spread(const Innovation<Real>& innovation, Real noise_variance_kg2) {
    const Real since_s = since_update_s_;
    since_update_s_ = Real(0);
    if (!crop_shows_) {
        whiteness_.restart();
        return;
    }
    const Real state_variance = innovation.variance - noise_variance_kg2;
    const Real limit = gate_sd_ * math::sqrt(innovation.variance);
    const Real residual = math::clamp(innovation.residual, -limit, limit);
    Real score = Real(0);
    if (!whiteness_.add(since_s, residual, state_variance, noise_variance_kg2, score)) return;
    if (cv_words_ < kCvWordsMost) ++cv_words_;
    const Real pace = kCvSlow + kCvFast / (Real(1) + static_cast<Real>(cv_words_) / kCvWords);
    set_cv_ratio(ln_cv_ratio_ + pace * score);
}

void FlowFilter::set_cv_ratio(Real ln_ratio) {
    ln_cv_ratio_ = math::clamp(ln_ratio, -cv_reach_, cv_reach_);
    learnt_cv_ = crop_cv_ * math::exp(ln_cv_ratio_);
}

void FlowFilter::keep_in_bounds() {
    Vector<Real, size>& x = belief_.mean;
    const auto keep = [&x](State state, Real low, Real high) { x(state) = math::clamp(x(state), low, high); };
    keep(ln_crop, kLnCropLow, kLnCropHigh);
    keep(ln_mean, kLnCropLow, kLnCropHigh);
    if (x(flow) < kLeastFlow) x(flow) = kLeastFlow;
    keep(dead_time, kLeastDeadTimeS - dead_time_s_, kMostDeadTimeS - dead_time_s_);
    keep(ln_lag, -kLnLagReach, kLnLagReach);
    keep(level, -kLevelReach, kLevelReach);
    keep(misfit, -kLevelReach, kLevelReach);
    keep(reaction, kLeastReaction, kMostReaction);
    keep(ln_picking, -kLnPickingReach, ln_most_picking_);
    work_out();
}

void FlowFilter::retell_mass(Real mass_kg, Real mass_variance_kg2) {
    retell(belief_, mass, mass_kg, mass_variance_kg2);
    whiteness_.restart();
}

void FlowFilter::recall(const Quick& earlier) {
    // A tray that was counted meanwhile stays counted: what was learnt of the loss is slow.
    for (const State state : {flow, ln_crop, ln_mean, dead_time, ln_lag})
        belief_.mean(state) = earlier(state);
    work_out();
    whiteness_.restart();
}

void FlowFilter::keep_drum() {
    kept_mean_ = belief_.mean.segment<kDrum>(dead_time);
    kept_variance_ = belief_.covariance.diagonal().segment<kDrum>(dead_time);
}

void FlowFilter::recall_drum() {
    for (const State state : {dead_time, ln_lag, level, misfit, reaction})
        retell(belief_, state, kept_mean_(state - dead_time), kept_variance_(state - dead_time));
    work_out();
}

void FlowFilter::loosen_flow(Real sd_kgps) {
    belief_.covariance(flow, flow) += sd_kgps * sd_kgps;
}

// Past the fold of the loss curve more crop would bring fewer peas, and one flow would have two explanations.
// The curve is half a guess, the weight is measured: so the loss grows as the curve says only up to half way
// to the fold, and slower than the feed beyond. Any flow can then be followed, its cause being put into the
// crop; of the curve's level it then says nothing.
FlowFilter::Answer FlowFilter::answer_of(Real told_hazard, Real feed_kgps) const {
    const Real hazard = told_hazard * level_factor_;
    const Real fold = hazard * feed_kgps / curve_.steepness_kgps;
    if (fold <= kFoldShare) return {math::exp(-hazard), fold, hazard};
    const Real bounded = kFoldShare * curve_.steepness_kgps / feed_kgps;
    return {math::exp(-bounded), -bounded, Real(0)};
}

FlowFilter::Answer FlowFilter::answer_at(Real feed_kgps) const {
    return answer_of(curve_.hazard(feed_kgps), feed_kgps);
}

Real FlowFilter::yield_of(Real ln_crop_value, Real area_rate_m2ps) const {
    const Answer answer = answer_at(feed_of(ln_crop_value, area_rate_m2ps));
    return math::exp(ln_crop_value + usual_hazard()) * answer.passed_share;
}

Real FlowFilter::yield_kgpm2(Real area_rate_m2ps) const {
    return yield_of(ln_crop_here(), area_rate_m2ps);
}

Real FlowFilter::yield_ahead_kgpm2(Real area_rate_m2ps) const {
    return yield_of(belief_.mean(ln_mean), area_rate_m2ps);
}

Real FlowFilter::ln_yield_variance(Real area_rate_m2ps) const {
    const Answer answer = answer_at(feed_of(ln_crop_here(), area_rate_m2ps));
    const Answer at_mean = answer_at(feed_of(belief_.mean(ln_mean), area_rate_m2ps));
    Vector<Real, size> gradient = Vector<Real, size>::Zero();
    gradient(ln_crop) = Real(1) - answer.fall * feed_with_crop_;
    gradient(ln_mean) = -answer.fall * (Real(1) - feed_with_crop_);
    gradient(level) = -more_than_usual(at_mean);
    gradient(misfit) = gradient(level);
    gradient(reaction) = -gradient(ln_crop) * eager_;
    return gradient.dot(times_sparse(belief_.covariance, gradient));
}

}  // namespace podrate
