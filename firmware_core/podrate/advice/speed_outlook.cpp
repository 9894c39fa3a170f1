#include "podrate/advice/advisor.hpp"
#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::advice;

namespace {

SpeedRange range_of(Real speed_mps, Real ln_variance) {
    const Real wide = math::exp(choices::flow::kNinetyPctSds * math::sqrt(ln_variance));
    return {true, speed_mps, speed_mps / wide, speed_mps * wide};
}

}  // namespace

SpeedOutlook::SpeedOutlook(const FlowFilter& filter, Real width_m)
    : curve_(filter.curve()),
      taken_in_kgpm2_(filter.taken_in_kgpm2()),
      standing_kgpm2_(taken_in_kgpm2_ / (Real(1) - curve_.picking_share)),
      width_m_(width_m),
      feed_per_mps_(filter.feed_per_pea() * taken_in_kgpm2_ * width_m),
      usual_hazard_(filter.usual_hazard()),
      ln_usual_hazard_(math::ln(usual_hazard_ > kLeastHazard ? usual_hazard_ : kLeastHazard)),
      fold_mps_(find_fold_mps()),
      belief_(filter.belief()) {}

Real SpeedOutlook::rate_kgps(Real speed_mps) const {
    return taken_in_kgpm2_ * width_m_ * speed_mps * math::exp(-curve_.hazard(feed_kgps(speed_mps)));
}

Real SpeedOutlook::ground_kgpm2(Real speed_mps) const {
    return standing_kgpm2_ * loss_share(speed_mps);
}

// loss = limit at hazard* = ln((1 - picking) / (1 - limit)), feed* = rated + steepness (ln hazard* - a).
SpeedRange SpeedOutlook::under(Real limit_share) const {
    const Real hazard = math::ln((Real(1) - curve_.picking_share) / (Real(1) - limit_share));
    if (hazard < kLeastHazard) return {};
    const Real feed = curve_.rated_feed_kgps + curve_.steepness_kgps * (math::ln(hazard) - curve_.level_a);
    if (feed <= kLeastFeedShare * curve_.rated_feed_kgps) return {};
    const Real steep = curve_.steepness_kgps / feed;
    const Real by_picking = -steep * curve_.picking_share / ((Real(1) - curve_.picking_share) * hazard);
    const Square<Real, FlowFilter::size>& p = belief_.covariance;
    Vector<Real, FlowFilter::size> gradient = Vector<Real, FlowFilter::size>::Zero();
    // With the level moves what is taken in for each pea that passes.
    gradient(FlowFilter::level) = -steep - usual_hazard_;
    gradient(FlowFilter::misfit) = -usual_hazard_;
    gradient(FlowFilter::ln_mean) = Real(-1);
    gradient(FlowFilter::ln_picking) = by_picking;
    // Trays and weight know the curve at the usual feed; from there to the limit it goes by the steepness
    // told, and by the haulm told.
    const Real beyond = steep * (math::ln(hazard) - ln_usual_hazard_);  // 1 - usual feed / feed at the limit
    const Real by_shape = beyond * beyond * (kSteepnessLnSd * kSteepnessLnSd + kHaulmLnSd * kHaulmLnSd);
    return range_of(feed / feed_per_mps_, gradient.dot(times_sparse(p, gradient)) + by_shape);
}

// Peas come as rate = taken in x width x speed x exp(-hazard): rises to the fold, so below it the way back is
// one.
SpeedRange SpeedOutlook::for_rate(Real rate) const {
    const Real fastest_mps = fold_mps();
    if (rate <= Real(0) || rate > kAttainable * rate_kgps(fastest_mps)) return {};
    Real low_mps = Real(0);
    Real high_mps = fastest_mps;
    for (int i = 0; i < kHalvings; ++i) {
        const Real middle_mps = (low_mps + high_mps) * Real(0.5);
        (rate_kgps(middle_mps) < rate ? low_mps : high_mps) = middle_mps;
    }
    const Real feed = feed_kgps(high_mps);
    const Real hazard = curve_.hazard(feed);
    const Real fold = hazard * feed / curve_.steepness_kgps;
    const Real flatter = Real(1) / (Real(1) - (fold < kAttainable ? fold : kAttainable));
    const Square<Real, FlowFilter::size>& p = belief_.covariance;
    // The flow at today's speeds is measured, whatever the loss: level and crop are tied in the covariance.
    Vector<Real, FlowFilter::size> gradient = Vector<Real, FlowFilter::size>::Zero();
    const Real taken_in = -usual_hazard_ * (Real(1) - fold) * flatter;
    gradient(FlowFilter::level) = hazard * flatter + taken_in;
    gradient(FlowFilter::misfit) = taken_in;
    gradient(FlowFilter::ln_mean) = -(Real(1) - fold) * flatter;
    return range_of(high_mps, gradient.dot(times_sparse(p, gradient)));
}

// hazard x feed = steepness, that is ln(feed) + feed/steepness = a known sum. The left side rises and bends
// down, so from below Newton's steps come up to it and never beyond.
Real SpeedOutlook::find_fold_mps() const {
    const Real steep = curve_.steepness_kgps;
    const Real sum = math::ln(steep) - curve_.level_a + curve_.rated_feed_kgps / steep;
    const Real most = kFoldReach * curve_.rated_feed_kgps;
    Real feed = kFoldFrom * steep;
    for (int i = 0; i < kFoldSteps; ++i) {
        const Real short_of = sum - math::ln(feed) - feed / steep;
        feed += short_of / (Real(1) / feed + Real(1) / steep);
        if (feed > most) return most / feed_per_mps_;
        if (feed < kFoldFrom * steep) feed = kFoldFrom * steep;
    }
    return feed / feed_per_mps_;
}

}  // namespace podrate
