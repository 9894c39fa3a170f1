#include "podrate/filter/flow_filter.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::flow;

FlowFilter::FlowFilter(const Parameters& p)
    : feed_per_pea_(Real(1) + p.haulm_ratio),
      dead_time_s_(p.drum_dead_time_s),
      lag_s_(p.drum_lag_s),
      crop_length_m_(p.crop_length_m),
      crop_cv_(p.crop_cv),
      patch_m_(p.crop_patch_m),
      cv_reach_(p.crop_cv_ln_reach),
      mean_drift_variance_(p.crop_mean_drift * p.crop_mean_drift),
      flow_noise_share_(p.flow_noise_share),
      blind_flow_noise_(p.blind_flow_noise_kgps * p.blind_flow_noise_kgps),
      gate_sd_(p.weight_gate_sd),
      prior_ln_crop_(math::ln(p.crop_kgpm2)),
      prior_ln_variance_(p.crop_ln_sd * p.crop_ln_sd),
      dead_time_variance_(p.drum_dead_time_sd_s * p.drum_dead_time_sd_s),
      ln_lag_variance_(p.drum_lag_ln_sd * p.drum_lag_ln_sd) {
    curve_.picking_share = p.picking_loss_share;
    curve_.level_a = LossCurve<Real>::level_for(p.drum_loss_share);
    curve_.rated_feed_kgps = p.rated_feed_kgps;
    curve_.steepness_kgps = p.feed_steepness_kgps;
    start(Real(0), Real(1));
}

void FlowFilter::start(Real mass_kg, Real mass_variance_kg2) {
    belief_.mean << mass_kg, Real(0), prior_ln_crop_, prior_ln_crop_, Real(0), Real(0);
    belief_.covariance.setZero();
    belief_.covariance(mass, mass) = mass_variance_kg2;
    belief_.covariance(flow, flow) = kFlowStartVariance;
    belief_.covariance(ln_crop, ln_crop) = prior_ln_variance_ + crop_cv_ * crop_cv_;
    belief_.covariance(ln_crop, ln_mean) = prior_ln_variance_;
    belief_.covariance(ln_mean, ln_crop) = prior_ln_variance_;
    belief_.covariance(ln_mean, ln_mean) = prior_ln_variance_;
    belief_.covariance(dead_time, dead_time) = dead_time_variance_;
    belief_.covariance(ln_lag, ln_lag) = ln_lag_variance_;
    keep_drum();
}

Real FlowFilter::predict(const Intake& intake) {
    const Real dt = intake.dt_s;
    if (dt <= Real(0)) return Real(0);
    since_update_s_ += dt;
    crop_shows_ = intake.known && intake.area_m2 > Real(0);
    Vector<Real, size>& x = belief_.mean;
    Square<Real, size> jacobian = Square<Real, size>::Identity();
    Vector<Real, size> noise = Vector<Real, size>::Zero();
    noise(mass) = kMassNoise * dt;

    if (!intake.known) {
        jacobian(mass, flow) = dt;
        x(mass) += x(flow) * dt;
        noise(flow) = blind_flow_noise_ * dt;
        walk_crop(intake.distance_m, jacobian, noise);
        predict_covariance(belief_, jacobian, noise);
        return Real(0);
    }

    const Real lag_s = this->lag_s();
    const Real kept = math::exp(-dt / lag_s);
    const Real gone = Real(1) - kept;
    jacobian(mass, flow) = lag_s * gone;
    jacobian(flow, flow) = kept;

    // What enters the drum's lag, and how it answers to the crop (as ln) and to the area rate.
    const Real area_rate = intake.area_m2 / dt;
    const Real crop = math::exp(x(ln_crop));
    const Real feed = feed_per_pea_ * crop * area_rate;
    const Answer answer = answer_at(feed);
    const Real passed = crop * answer.passed_share;
    const Real inflow = passed * area_rate;
    const Real lost_kg = (crop * area_rate - inflow) * dt;
    const Real per_area_rate = passed * answer.steepness;
    const Real direct_s = dt - lag_s * gone;  // d mass / d inflow over the step
    jacobian(mass, ln_crop) = per_area_rate * area_rate * direct_s;
    jacobian(flow, ln_crop) = per_area_rate * area_rate * gone;
    const Real per_dead_time = -per_area_rate * intake.area_rate_change_m2ps2;
    jacobian(mass, dead_time) = per_dead_time * direct_s;
    jacobian(flow, dead_time) = per_dead_time * gone;
    jacobian(mass, ln_lag) = (x(flow) - inflow) * (lag_s * gone - dt * kept);
    jacobian(flow, ln_lag) = (x(flow) - inflow) * kept * dt / lag_s;
    noise(dead_time) = kDeadTimeDrift * dt;
    noise(ln_lag) = kLagDrift * dt;
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
    return lost_kg;
}

// The crop reverts to its mean over that distance.
void FlowFilter::walk_crop(Real distance_m, Square<Real, size>& jacobian, Vector<Real, size>& noise) {
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

Real FlowFilter::crop_cv() const {
    return crop_cv_ * math::exp(ln_cv_ratio_);
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
    ln_cv_ratio_ = math::clamp(ln_cv_ratio_ + pace * score, -cv_reach_, cv_reach_);
}

void FlowFilter::keep_in_bounds() {
    Vector<Real, size>& x = belief_.mean;
    x(ln_crop) = math::clamp(x(ln_crop), kLnCropLow, kLnCropHigh);
    x(ln_mean) = math::clamp(x(ln_mean), kLnCropLow, kLnCropHigh);
    if (x(flow) < kLeastFlow) x(flow) = kLeastFlow;
    x(dead_time) = math::clamp(x(dead_time), kLeastDeadTimeS - dead_time_s_, kMostDeadTimeS - dead_time_s_);
    x(ln_lag) = math::clamp(x(ln_lag), -kLnLagReach, kLnLagReach);
}

Real FlowFilter::lag_s() const {
    return lag_s_ * math::exp(belief_.mean(ln_lag));
}

void FlowFilter::retell_mass(Real mass_kg, Real mass_variance_kg2) {
    retell(belief_, mass, mass_kg, mass_variance_kg2);
    whiteness_.restart();
}

void FlowFilter::recall(const Vector<Real, size>& earlier) {
    const Real mass_kg = belief_.mean(mass);
    belief_.mean = earlier;
    belief_.mean(mass) = mass_kg;
    whiteness_.restart();
}

void FlowFilter::keep_drum() {
    kept_dead_time_ = belief_.mean(dead_time);
    kept_ln_lag_ = belief_.mean(ln_lag);
    kept_dead_time_variance_ = belief_.covariance(dead_time, dead_time);
    kept_ln_lag_variance_ = belief_.covariance(ln_lag, ln_lag);
}

void FlowFilter::recall_drum() {
    retell(belief_, dead_time, kept_dead_time_, kept_dead_time_variance_);
    retell(belief_, ln_lag, kept_ln_lag_, kept_ln_lag_variance_);
}

void FlowFilter::loosen_flow(Real sd_kgps) {
    belief_.covariance(flow, flow) += sd_kgps * sd_kgps;
}

// Past the fold of the loss curve more crop would bring fewer peas, and one flow would have two explanations.
// The curve is a prior, the weight is measured: so the loss grows as the curve says only up to half way to
// the fold, and slower than the feed beyond. Any flow can then be followed, its cause being put into the
// crop.
FlowFilter::Answer FlowFilter::answer_at(Real feed_kgps) const {
    const Real hazard = curve_.hazard(feed_kgps);
    if (hazard * feed_kgps <= kFoldShare * curve_.steepness_kgps) {
        return {curve_.passed_share(hazard), Real(1) - hazard * feed_kgps / curve_.steepness_kgps};
    }
    const Real bounded = kFoldShare * curve_.steepness_kgps / feed_kgps;
    return {curve_.passed_share(bounded), Real(1) + bounded};
}

Real FlowFilter::feed_kgps(Real area_rate_m2ps) const {
    return feed_per_pea_ * math::exp(belief_.mean(ln_crop)) * area_rate_m2ps;
}

Real FlowFilter::yield_of(Real ln_crop_value, Real area_rate_m2ps) const {
    const Real crop = math::exp(ln_crop_value);
    const Real feed = area_rate_m2ps > kNoFeed ? feed_per_pea_ * crop * area_rate_m2ps : kNoFeed;
    return crop * answer_at(feed).passed_share;
}

Real FlowFilter::yield_kgpm2(Real area_rate_m2ps) const {
    return yield_of(belief_.mean(ln_crop), area_rate_m2ps);
}

Real FlowFilter::yield_ahead_kgpm2(Real area_rate_m2ps) const {
    return yield_of(belief_.mean(ln_mean), area_rate_m2ps);
}

}  // namespace podrate
