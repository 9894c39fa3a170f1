// The estimator's part in the loss: trays, hits, what passed.
#include "podrate/choices.hpp"
#include "podrate/estimator.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::loss;

// The mean area rate over the seconds after the cut, in which a driver answers to that crop; 0 where the
// machine did not cut throughout.
Real Estimator::answered_m2ps(TimeUs cut_us) const {
    const TimeUs to_us = cut_us + kAnswerUs < now_us_ ? cut_us + kAnswerUs : now_us_;
    const TimeUs from_us = to_us - kAnswerUs;
    const TimeUs third_us = kAnswerUs / 3;
    Real sum_m2 = Real(0);
    for (int i = 0; i < 3; ++i) {
        const Real part_m2 = swath_.line().between(from_us + i * third_us, from_us + (i + 1) * third_us);
        if (part_m2 <= Real(0)) return Real(0);
        sum_m2 += part_m2;
    }
    return sum_m2 / seconds(3 * third_us);
}

Real Estimator::ln_excess_at(Real area_rate_m2ps) const {
    return excess_.heard() && area_rate_m2ps > Real(0) ? filter_.ln_excess(excess_.ln_ratio(), area_rate_m2ps)
                                                       : Real(0);
}

void Estimator::note_passed(const Intake& intake, const Passage& passage, TimeUs cut_us) {
    const Real rate = intake.area_m2 / intake.dt_s;
    excess_.walk(intake.distance_m);
    const Real ln_excess = ln_excess_at(rate);
    loss_book_.add(passage.passed_kgpm2 * intake.area_m2, passage.passed_kgpm2 * rate, ln_excess);
    due_kg_.add(passage.ahead_kgpm2 * intake.area_m2);
    ahead_kgpm2_ = passage.ahead_kgpm2;
    knowledge_.worked(intake.distance_m, rate);
    places_.remember({cut_us, rate, passage.passed_kgpm2, ln_excess});
}

// What strikes the sensor has been cut its own delay ago, sooner than peas reach the hopper.
void Estimator::listen(TimeUs from_us, TimeUs to_us) {
    if (!hits_.any()) return;
    const TimeUs cut_us = to_us - hits_.delay_us();
    const Real area_m2 = swath_.line().between(from_us - hits_.delay_us(), cut_us);
    if (area_m2 <= Real(0)) return;
    const Real rate = area_m2 / seconds(to_us - from_us);
    if (hits_.reach(cut_us, filter_.mean_drum_loss_kgps(rate)))
        excess_.hear(hits_.hits_per_s(), hits_.block_s(), hits_.expected_kgps());
}

void Estimator::take_tray(const Sample& sample, const PassedPlace& place) {
    filter_.update_tray(place, static_cast<Real>(sample.value[0]), static_cast<Real>(sample.value[1]),
                        excess_.sd());
    knowledge_.tray();
}

LossBelief Estimator::loss_here(Real area_rate_m2ps) const {
    LossBelief belief = filter_.loss_belief(area_rate_m2ps);
    const Real ln_excess = ln_excess_at(area_rate_m2ps);
    belief.ln_hazard += ln_excess;
    belief.ln_hazard_variance += excess_.sd() * excess_.sd();
    belief.fold *= math::exp(ln_excess);
    return belief;
}

void Estimator::read_loss(Real area_rate_m2ps, Estimate& e) const {
    const LossBelief belief = loss_here(area_rate_m2ps);
    const LossShares loss = loss_shares(belief);
    e.loss_share = loss.total.share;
    e.loss_low = loss.total.low;
    e.loss_high = loss.total.high;
    e.drum_loss_share = loss.drum.share;
    e.drum_loss_low = loss.drum.low;
    e.drum_loss_high = loss.drum.high;
    e.picking_loss_share = loss.picking.share;
    e.picking_loss_low = loss.picking.low;
    e.picking_loss_high = loss.picking.high;
    e.ground_kgpm2 = e.yield_kgpm2 * e.loss_share / (Real(1) - e.loss_share);
    e.fold = belief.fold;
    e.loss_learnt = filter_.level_learnt();
    e.speed_spread = knowledge_.speed_spread();
    e.tray_checks = knowledge_.trays();
    e.loss_sensor = excess_.heard();
}

LossSoFar Estimator::loss_so_far() const {
    const Square<Real, FlowFilter::size>& p = filter_.belief().covariance;
    return loss_book_.so_far(filter_.curve(), p(FlowFilter::level, FlowFilter::level),
                             p(FlowFilter::ln_picking, FlowFilter::ln_picking),
                             p(FlowFilter::level, FlowFilter::ln_picking));
}

LossMemory Estimator::loss_memory() const {
    LossMemory memory = filter_.memory();
    memory.time_us = now_us_;
    return memory;
}

void Estimator::begin_with(const LossMemory& memory, TimeUs now_us) {
    LossMemory aged = memory;
    const Real days = now_us > memory.time_us
                          ? static_cast<Real>(now_us - memory.time_us) / (Real(86400) * Real(1e6))
                          : Real(0);
    aged.level_variance += kLevelPerDay * days;
    aged.ln_picking_variance += kPickingPerDay * days;
    filter_.begin_with(aged);
}

}  // namespace podrate
