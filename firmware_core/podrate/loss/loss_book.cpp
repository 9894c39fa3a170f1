#include "podrate/loss/loss_book.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::loss;

LossBook::LossBook(Real rated_feed_kgps, Real feed_per_pea)
    : bin_kgps_(kBookReach * rated_feed_kgps / feed_per_pea / static_cast<Real>(kBins)),
      feed_per_pea_(feed_per_pea) {}

void LossBook::add(Real passed_kg, Real passed_kgps, Real ln_excess) {
    if (passed_kg <= Real(0)) return;
    const Real place = math::clamp(passed_kgps / bin_kgps_, Real(0), static_cast<Real>(kBins - 1));
    passed_kg_[static_cast<int>(place)].add(passed_kg);
    const bool usual = !(ln_excess < Real(0)) && !(ln_excess > Real(0));
    excess_kg_[static_cast<int>(place)].add(usual ? passed_kg : passed_kg * math::exp(ln_excess));
}

LossSoFar LossBook::so_far(const LossCurve<Real>& curve, Real level_variance, Real ln_picking_variance,
                           Real covariance) const {
    LossSoFar sum;
    const Real picked = Real(1) - curve.picking_share;
    Real by_level_kg = Real(0);    // d lost / d level
    Real by_picking_kg = Real(0);  // d lost / d ln(picking)
    for (int i = 0; i < kBins; ++i) {
        const Real kg = passed_kg_[i].value();
        if (kg <= Real(0)) continue;
        LossCurve<Real> there = curve;
        there.level_a += math::ln(excess_kg_[i].value() / kg);
        const PassedFeed<Real> here =
            feed_where_passed(there, feed_per_pea_, (static_cast<Real>(i) + Real(0.5)) * bin_kgps_);
        const Real taken_in_kg = kg * math::exp(here.hazard);
        sum.collected_kg += kg;
        sum.drum_kg += taken_in_kg - kg;
        sum.lost_kg += taken_in_kg / picked - kg;
        by_level_kg += taken_in_kg / picked * here.hazard * here.steeper;
        by_picking_kg += taken_in_kg / (picked * picked) * curve.picking_share;
    }
    if (sum.collected_kg <= Real(0)) return sum;
    const Real all_kg = sum.collected_kg + sum.lost_kg;
    const Real kept = sum.collected_kg / all_kg;  // d share = kept x d lost / all
    const Real variance = by_level_kg * by_level_kg * level_variance +
                          Real(2) * by_level_kg * by_picking_kg * covariance +
                          by_picking_kg * by_picking_kg * ln_picking_variance;
    const Real total_ln_sd = kept * math::sqrt(variance) / sum.lost_kg;
    sum.shares.total = share_with_interval(sum.lost_kg / all_kg, total_ln_sd);
    sum.shares.ln_total_sd = total_ln_sd;
    sum.shares.picking = share_with_interval(curve.picking_share, math::sqrt(ln_picking_variance));
    const Real drum_ln_sd =
        sum.drum_kg > Real(0) ? by_level_kg * picked / sum.drum_kg * math::sqrt(level_variance) : Real(0);
    sum.shares.drum = share_with_interval(sum.drum_kg / all_kg, drum_ln_sd);
    sum.ln_hazard_sd = drum_ln_sd;
    return sum;
}

}  // namespace podrate
