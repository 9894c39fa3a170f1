// What the estimator keeps over a power cut, and how it goes on after one.
#include "podrate/choices.hpp"
#include "podrate/estimator.hpp"

namespace podrate {

bool Estimator::save(RetainedState& state) const {
    if (!started_) return false;
    RetainedNow& now = state.now;
    now.time_us = now_us_;
    now.inflow_kg = totals_.inflow_kg;
    now.area_m2 = totals_.area_m2;
    now.lost_kg = totals_.lost_kg;
    now.mass_kg = mass_kg();
    now.mass_variance_kg2 = filter_.belief().covariance(FlowFilter::mass, FlowFilter::mass);
    now.flow_kgps = filter_.belief().mean(FlowFilter::flow);
    now.booked_kg = loss_book_.passed_kg();

    RetainedLoads& loads = state.loads;
    loads = RetainedLoads();
    loads_.save(loads);
    loads.ceiling_kg = ceiling_kg_;
    loads.pauses = pauses_.last().number;
    loads.trays = knowledge_.trays();

    RetainedLearnt& learnt = state.learnt;
    learnt.parameter_version = kParameterVersion;
    weight_.save(loads, learnt);
    filter_.save(learnt);
    learnt.loss.time_us = now_us_;
    noise_.save(learnt);
    swath_.save(learnt);
    learnt.place_known = place_.place_known;
    learnt.lat_e7 = place_.lat_e7;
    learnt.lon_e7 = place_.lon_e7;
    knowledge_.save(learnt);
    excess_.save(learnt);
    loss_book_.save(learnt);
    return true;
}

ResumeResult Estimator::resume(const RetainedState& state, TimeUs now_us, Resume how) {
    if (any_sample_) return ResumeResult::too_late;
    if (now_us < state.now.time_us) return ResumeResult::time_back;
    const RetainedLearnt& learnt = state.learnt;
    const bool same_parameters = learnt.parameter_version == kParameterVersion;
    if (same_parameters) {
        begin_with(learnt.loss, now_us);
        filter_.resume(learnt, how == Resume::go_on);
        weight_.resume(learnt, now_us);
        noise_.resume(learnt);
        swath_.resume(learnt);
        knowledge_.resume(learnt);
        excess_.resume(learnt);
    }
    if (how == Resume::go_on) resume_totals(state, now_us);
    return same_parameters ? ResumeResult::resumed : ResumeResult::learnt_dropped;
}

void Estimator::resume_totals(const RetainedState& state, TimeUs now_us) {
    const RetainedNow& now = state.now;
    const RetainedLoads& loads = state.loads;
    any_sample_ = true;
    started_ = true;
    power_was_cut_ = true;
    now_us_ = now_us;
    filter_us_ = now.time_us;
    weight_us_ = now.time_us;
    swath_known_us_ = now_us;
    totals_ = {now.inflow_kg, now.area_m2, now.lost_kg};
    filter_.start(now.mass_kg, now.mass_variance_kg2);
    filter_.resume_flow(now.flow_kgps, choices::estimator::kFlowDoubt);
    loads_.resume(loads, now);
    weight_.resume(loads);
    loss_book_.resume(state.learnt, now.booked_kg);
    knowledge_.resume_trays(loads.trays);
    pauses_.resume(loads.pauses);
    ceiling_kg_ = loads.ceiling_kg;
    place_.place_known = state.learnt.place_known;
    place_.lat_e7 = state.learnt.lat_e7;
    place_.lon_e7 = state.learnt.lon_e7;
}

void Estimator::weigh_after_cut(TimeUs time_us, Real weight_kg) {
    if (!fresh_.add(time_us, weight_kg)) return;
    power_was_cut_ = false;
    area_at_weight_ = totals_.area_m2;
    // A scale that said nothing before the cut and says the same now goes on saying nothing.
    held_ = weight_.stuck() || at_end_of_scale(fresh_.mean_kg());
    if (held_) {
        filter_us_ = time_us;
        return;
    }
    resume_after_outage(time_us, fresh_.mean_kg());
    weight_us_ = time_us;
}

}  // namespace podrate
