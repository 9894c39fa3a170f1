// What the flow filter knows and learns of the loss besides what the weight tells.
#include "podrate/choices.hpp"
#include "podrate/filter/flow_filter.hpp"
#include "podrate/loss/passed_feed.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::flow;
using namespace choices::loss;

LossCurve<Real> FlowFilter::curve() const {
    LossCurve<Real> curve = curve_;
    curve.level_a += belief_.mean(level);
    curve.picking_share = picking_share();
    return curve;
}

Real FlowFilter::level_learnt() const {
    const Real left = belief_.covariance(level, level) / told_variance_(0);
    return Real(1) - math::sqrt(math::clamp(left, Real(0), Real(1)));
}

LossBelief FlowFilter::loss_of(Real ln_crop_value, State crop, Real area_rate_m2ps) const {
    const Square<Real, size>& p = belief_.covariance;
    LossBelief loss;
    loss.feed_kgps = feed_of(ln_crop_value, area_rate_m2ps);
    const Real hazard = curve().hazard(loss.feed_kgps);
    const Real per_feed = loss.feed_kgps / curve_.steepness_kgps;  // d ln(hazard)/d ln(feed)
    Vector<Real, size> gradient = Vector<Real, size>::Zero();
    // With the level moves what is taken in for each pea that passes, and with that the feed.
    gradient(level) = Real(1) + per_feed * usual_hazard();
    gradient(misfit) = per_feed * usual_hazard();
    gradient(ln_mean) = per_feed * (Real(1) - feed_with_crop_);
    gradient(crop) += per_feed * feed_with_crop_;
    const Vector<Real, size> tied = times_sparse(p, gradient);
    loss.ln_hazard = math::ln(hazard);
    loss.ln_hazard_variance = gradient.dot(tied);
    if (loss.ln_hazard_variance < Real(0)) loss.ln_hazard_variance = Real(0);
    loss.picking_share = picking_share();
    loss.ln_picking_variance = p(ln_picking, ln_picking);
    loss.covariance = tied(ln_picking);
    loss.fold = hazard * per_feed;
    return loss;
}

LossBelief FlowFilter::loss_belief(Real area_rate_m2ps) const {
    return loss_of(ln_crop_here(), ln_crop, area_rate_m2ps);
}

LossBelief FlowFilter::loss_belief_ahead(Real area_rate_m2ps) const {
    return loss_of(belief_.mean(ln_mean), ln_mean, area_rate_m2ps);
}

// Peas on the ground = peas passed x (exp(hazard) / (1 - picking) - 1). What passed there is known from the
// weight, so the crop that stood there follows from the hazard and needs no memory of its own. In logarithms,
// since a count is off by a share; a few kg/ha are added so that an empty tray counts as little, not as
// nothing.
void FlowFilter::update_tray(const PassedPlace& place, Real ground_kgpm2, Real sd_share, Real ln_excess_sd) {
    LossCurve<Real> curve = this->curve();
    curve.level_a += place.ln_excess;
    const PassedFeed<Real> there =
        feed_where_passed(curve, feed_per_pea_, place.passed_kgpm2 * place.area_rate_m2ps);
    const Real hazard = there.hazard;
    const Real stood = math::exp(hazard) / (Real(1) - curve.picking_share);  // for each pea passed
    const Real passed_kgpm2 = place.passed_kgpm2 / fresh_share_;
    const Real expected = passed_kgpm2 * (stood - Real(1));
    const Real shown = expected + kTrayLeastKgpm2;
    Vector<Real, size> h = Vector<Real, size>::Zero();
    h(level) = passed_kgpm2 * stood * hazard * there.steeper / shown;
    h(ln_picking) = passed_kgpm2 * stood * curve.picking_share / (Real(1) - curve.picking_share) / shown;
    const Real residual = math::ln((ground_kgpm2 + kTrayLeastKgpm2) / shown);
    const Real sd = sd_share * expected / shown;
    const Real elsewhere = h(level) * ln_excess_sd;
    update_linear(belief_, h, residual, sd * sd + elsewhere * elsewhere + kTraySpotSd * kTraySpotSd);
    keep_in_bounds();
    kept_mean_(level - dead_time) = belief_.mean(level);
    kept_variance_(level - dead_time) = belief_.covariance(level, level);
}

Real FlowFilter::mean_drum_loss_kgps(Real area_rate_m2ps) const {
    const Real hazard = curve().hazard(feed_of(belief_.mean(ln_mean), area_rate_m2ps));
    return taken_in_kgpm2() * area_rate_m2ps * (Real(1) - math::exp(-hazard));
}

Real FlowFilter::ln_excess(Real ln_ratio, Real area_rate_m2ps) const {
    const LossCurve<Real> curve = this->curve();
    const Real mean = belief_.mean(ln_mean);
    const Real of_mean = Real(1) - math::exp(-curve.hazard(feed_of(mean, area_rate_m2ps)));
    const Real here = math::exp(mean + ln_ratio - ln_crop_here()) * of_mean;
    const Real hazard = -math::ln(Real(1) - (here < kMostDrumLoss ? here : kMostDrumLoss));
    return math::ln(hazard / curve.hazard(feed_of(ln_crop_here(), area_rate_m2ps)));
}

LossMemory FlowFilter::memory() const {
    const Square<Real, size>& p = belief_.covariance;
    LossMemory memory;
    memory.level = belief_.mean(level);
    memory.ln_picking = belief_.mean(ln_picking);
    memory.level_variance = p(level, level);
    memory.ln_picking_variance = p(ln_picking, ln_picking);
    memory.level_with_picking = p(level, ln_picking);
    return memory;
}

void FlowFilter::begin_with(const LossMemory& memory) {
    Square<Real, size>& p = belief_.covariance;
    const auto tell = [this](State state, Real mean, Real variance) {
        // Never less sure than with nothing known, and never quite sure.
        const Real most = told_variance_(state - level);
        prior_mean_(state) = mean;
        prior_variance_(state) = math::clamp(variance, kSurestMemory < most ? kSurestMemory : most, most);
    };
    tell(level, memory.level, memory.level_variance);
    tell(ln_picking, memory.ln_picking, memory.ln_picking_variance);
    // No tighter than the variances allow, whatever a memory says.
    const Real most = kTightest * math::sqrt(prior_variance_(level) * prior_variance_(ln_picking));
    prior_tie_ = math::clamp(memory.level_with_picking, -most, most);
    for (const State state : {level, ln_picking})
        retell(belief_, state, prior_mean_(state), prior_variance_(state));
    p(level, ln_picking) = prior_tie_;
    p(ln_picking, level) = prior_tie_;
    keep_in_bounds();
    keep_drum();
}

}  // namespace podrate
