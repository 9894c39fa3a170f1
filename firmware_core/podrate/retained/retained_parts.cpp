// How each part of the estimator is kept over a power cut, and taken up again.
#include "podrate/choices.hpp"
#include "podrate/filter/flow_filter.hpp"
#include "podrate/loss/loss_book.hpp"
#include "podrate/loss/loss_excess.hpp"
#include "podrate/loss/loss_knowledge.hpp"
#include "podrate/weight/conditioning.hpp"
#include "podrate/weight/noise_follower.hpp"
#include "podrate/work/load_keeper.hpp"
#include "podrate/work/swath.hpp"

namespace podrate {

void LoadKeeper::save(RetainedLoads& to) const {
    to.last = last_;
    to.load_start_us = load_start_us_;
    to.first_cut_us = first_cut_us_;
    to.cut_yet = cut_yet_;
    to.load_start_kg = load_start_kg_;
    to.run_start_kg = run_start_kg_;
    to.shifts_kg = shifts_kg_;
    to.spent_variance_kg2 = spent_variance_kg2_;
    to.tipped_kg = tipped_kg_;
    to.area_at_start_m2 = at_load_start_.area_m2;
    to.lost_at_start_kg = at_load_start_.lost_kg;
    to.in_tip = in_tip_;
    if (!in_tip_) return;
    to.tip_began_us = tip_began_us_;
    to.before_tip_kg = before_tip_.mass_kg;
    to.before_tip_variance_kg2 = before_tip_.variance_kg2;
    to.inflow_before_tip_kg = before_tip_.totals.inflow_kg;
}

void LoadKeeper::resume(const RetainedLoads& from, const RetainedNow& now) {
    last_ = from.last;
    loads_ = from.last.number;
    load_start_us_ = from.load_start_us;
    first_cut_us_ = from.first_cut_us;
    cut_yet_ = from.cut_yet;
    load_start_kg_ = from.load_start_kg;
    run_start_kg_ = from.run_start_kg;
    shifts_kg_ = from.shifts_kg;
    spent_variance_kg2_ = from.spent_variance_kg2;
    tipped_kg_ = from.tipped_kg;
    at_load_start_ = {{}, from.area_at_start_m2, from.lost_at_start_kg};
    const RunningTotals totals{now.inflow_kg, now.area_m2, now.lost_kg};
    weigh_afresh(now.time_us, now.mass_kg, now.mass_variance_kg2, totals);
    in_tip_ = from.in_tip;
    if (!in_tip_) return;
    tip_began_us_ = from.tip_began_us;
    before_tip_ = {from.tip_began_us, from.before_tip_kg, from.before_tip_variance_kg2, totals};
    before_tip_.totals.inflow_kg = from.inflow_before_tip_kg;
}

void WeightConditioner::save(RetainedLoads& loads, RetainedLearnt& learnt) const {
    loads.zero_kg = zero_kg_;
    loads.zero_variance_kg2 = zero_variance_kg2_;
    loads.zero_us = zero_time_us_;
    loads.zero_timed = zero_timed_;
    loads.stuck = stuck_;
    if (stuck_) loads.stuck_kg = static_cast<Real>(last_sum_);
    loads.dead_cells = cells_.dead();
    learnt.tilt_share = tilt_share_;
    cells_.save(learnt);
}

void WeightConditioner::resume(const RetainedLearnt& from, TimeUs now_us) {
    tilt_share_ = from.tilt_share;
    if (from.place_known) set_latitude(static_cast<Real>(from.lat_e7) * Real(1e-7));
    cells_.resume(from, now_us);
}

void WeightConditioner::resume(const RetainedLoads& from) {
    zero_kg_ = from.zero_kg;
    zero_variance_kg2_ = from.zero_variance_kg2;
    zero_time_us_ = from.zero_us;
    zero_timed_ = from.zero_timed;
    stuck_ = from.stuck;
    last_sum_ = static_cast<float>(from.stuck_kg);
    cells_.resume_dead(from.dead_cells);
}

void CellWatch::save(RetainedLearnt& to) const {
    to.cell_count = static_cast<std::uint8_t>(count_);
    for (int i = 0; i < kMostCells; ++i) {
        const Cell& cell = cells_[i];
        to.cells[i] = {cell.last_kg,        cell.others_then_kg, cell.step_kg,     cell.mean_kg,
                       cell.others_mean_kg, cell.spread_kg2,     cell.together_kg2};
    }
}

void CellWatch::resume(const RetainedLearnt& from, TimeUs now_us) {
    count_ = from.cell_count < 2 ? 0 : from.cell_count;
    learnt_us_ = now_us;
    for (int i = 0; i < kMostCells; ++i) {
        const RetainedCell& cell = from.cells[i];
        cells_[i] = {cell.last_kg, cell.others_then_kg, now_us,          cell.step_kg,
                     cell.mean_kg, cell.others_mean_kg, cell.spread_kg2, cell.together_kg2};
    }
}

void CellWatch::resume_dead(std::uint8_t dead) {
    dead_ = dead & ((1U << static_cast<unsigned>(count_)) - 1U);
}

void NoiseFollower::save(RetainedLearnt& to) const {
    to.moving_spread_kg2 = moving_.spread_kg2;
    to.moving_white_kg2 = moving_.white_kg2;
    to.still_spread_kg2 = still_.spread_kg2;
    to.still_white_kg2 = still_.white_kg2;
}

void NoiseFollower::resume(const RetainedLearnt& from) {
    moving_ = {from.moving_spread_kg2, from.moving_white_kg2};
    still_ = {from.still_spread_kg2, from.still_white_kg2};
}

void FlowFilter::save(RetainedLearnt& to) const {
    const auto variance = [this](State state) { return belief_.covariance(state, state); };
    to.dead_time_s = dead_time_s();
    to.dead_time_variance_s2 = variance(dead_time);
    to.lag_s = lag_s();
    to.ln_lag_variance = variance(ln_lag);
    to.ln_crop = belief_.mean(ln_crop);
    to.ln_mean = belief_.mean(ln_mean);
    to.ln_mean_variance = variance(ln_mean);
    to.crop_cv = crop_cv();
    to.cv_words = static_cast<std::uint32_t>(cv_words_);
    to.loss = memory();
    to.misfit = belief_.mean(misfit);
    to.misfit_variance = variance(misfit);
    to.reaction = belief_.mean(reaction);
    to.reaction_variance = variance(reaction);
    to.ln_usual_rate = ln_usual_rate_;
    to.usual_over_m = usual_over_m_;
    to.usual_unit_hazard = usual_unit_hazard_;
    to.referred_over_m = referred_over_m_;
}

// Means and variances are kept, ties between them are not: without them the filter is a little vaguer, never
// surer. They become what start() begins with.
void FlowFilter::resume(const RetainedLearnt& from, bool same_crop) {
    usual_unit_hazard_ = from.usual_unit_hazard;
    referred_over_m_ = math::clamp(from.referred_over_m, Real(0), choices::flow::kUsualOverM);
    usual_over_m_ = math::clamp(from.usual_over_m, Real(0), choices::flow::kUsualOverM);
    ln_usual_rate_ = from.ln_usual_rate;
    set_cv_ratio(math::ln(from.crop_cv / crop_cv_));
    const auto most = static_cast<std::uint32_t>(choices::flow::kCvWordsMost);
    if (same_crop) cv_words_ = static_cast<int>(from.cv_words < most ? from.cv_words : most);
    const auto tell = [this](State state, Real mean, Real variance) {
        // Never vaguer than with nothing known.
        const Real told = prior_variance_(state);
        prior_mean_(state) = mean;
        prior_variance_(state) = variance < told ? variance : told;
    };
    tell(dead_time, from.dead_time_s - dead_time_s_, from.dead_time_variance_s2);
    tell(ln_lag, math::ln(from.lag_s / lag_s_), from.ln_lag_variance);
    tell(misfit, from.misfit, from.misfit_variance);
    tell(reaction, from.reaction, from.reaction_variance);
    if (same_crop) {
        tell(ln_mean, from.ln_mean, from.ln_mean_variance);
        prior_mean_(ln_crop) = from.ln_crop;
        prior_variance_(ln_crop) = crop_cv() * crop_cv();
    }
    start(Real(0), Real(1));
    keep_in_bounds();
    prior_mean_ = belief_.mean;
    keep_drum();
}

void FlowFilter::resume_flow(Real flow_kgps, Real sd_kgps) {
    retell(belief_, flow, flow_kgps, sd_kgps * sd_kgps);
    keep_in_bounds();
}

void SlipWatch::save(RetainedLearnt& to) const {
    to.slip_factor = factor_;
    to.slip_variance = variance_;
}

void SlipWatch::resume(const RetainedLearnt& from) {
    factor_ = from.slip_factor;
    variance_ = from.slip_variance;
}

void Swath::save(RetainedLearnt& to) const {
    to.usual_speed_mps = usual_speed_mps_;
    slip_.save(to);
}

void Swath::resume(const RetainedLearnt& from) {
    usual_speed_mps_ = from.usual_speed_mps;
    slip_.resume(from);
}

Real LossBook::passed_kg() const {
    math::CompensatedSum<Real> sum;
    for (const auto& kg : passed_kg_) sum.add(kg.value());
    return sum.value();
}

void LossBook::save(RetainedLearnt& to) const {
    for (int i = 0; i < kBins; ++i) {
        to.passed_kg[i] = passed_kg_[i].value();
        to.excess_kg[i] = excess_kg_[i].value();
    }
}

void LossBook::resume(const RetainedLearnt& from, Real booked_kg) {
    Real by_bin = Real(0);
    for (int i = 0; i < kBins; ++i) {
        const Real kg = from.passed_kg[i];
        if (kg < choices::retained::kLeastBookedKg) continue;
        passed_kg_[i] = {kg, Real(0)};
        const Real most = choices::retained::kMostBookedExcess;
        excess_kg_[i] = {math::clamp(from.excess_kg[i], kg / most, kg * most), Real(0)};
        by_bin += kg * (static_cast<Real>(i) + Real(0.5));
    }
    const Real kept_kg = passed_kg();
    const Real mean_bin = kept_kg > Real(0) ? by_bin / kept_kg : Real(0);
    add(booked_kg - kept_kg, mean_bin * bin_kgps_, Real(0));
}

void LossKnowledge::save(RetainedLearnt& to) const {
    to.worked_m = over_m_;
    to.ln_rate_mean = mean_;
    to.ln_rate_variance = variance_;
}

void LossKnowledge::resume(const RetainedLearnt& from) {
    over_m_ = from.worked_m;
    mean_ = from.ln_rate_mean;
    variance_ = from.ln_rate_variance;
}

void LossExcess::save(RetainedLearnt& to) const {
    to.ln_hits_gain = ln_gain_;
    to.hits_blocks = static_cast<std::uint32_t>(blocks_);
}

void LossExcess::resume(const RetainedLearnt& from) {
    const auto most = static_cast<std::uint32_t>(choices::loss::kGainBlocks);
    ln_gain_ = from.ln_hits_gain;
    blocks_ = static_cast<int>(from.hits_blocks < most ? from.hits_blocks : most);
}

}  // namespace podrate
