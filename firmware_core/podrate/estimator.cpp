#include "podrate/estimator.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::estimator;

Estimator::Estimator(const Parameters& parameters)
    : parameters_(parameters),
      weight_(parameters),
      noise_(parameters),
      swath_(parameters),
      filter_(parameters),
      loss_book_(parameters.rated_feed_kgps, filter_.feed_per_pea()),
      hits_(parameters.hits_delay_s),
      alarms_(parameters),
      blockage_(parameters.drum_blocking_sd),
      advisor_(parameters),
      tips_(parameters),
      surprise_(parameters),
      loads_(parameters),
      judge_(parameters) {}

FeedResult Estimator::feed(const Sample& sample) {
    const FeedResult result = check(sample);
    if (result != FeedResult::taken) return result;
    if (any_sample_ && sample.time_us < now_us_) return FeedResult::time_back;
    PassedPlace place;
    if (sample.channel == Channel::tray && !places_.at(sample.about_us, place))
        return FeedResult::no_such_place;
    any_sample_ = true;
    now_us_ = sample.time_us;

    switch (sample.channel) {
        case Channel::weight: take_weight(sample); break;
        case Channel::speed: take_speed(sample); break;
        case Channel::reel: swath_.set_reel(sample.time_us, sample.value[0] > 0.5F); break;
        case Channel::heading: swath_.set_heading(sample.time_us, static_cast<Real>(sample.value[0])); break;
        case Channel::tilt:
            weight_.set_tilt(sample);
            tilt_.see(sample, swath_.moving());
            break;
        case Channel::position:
            place_.lat_e7 = sample.lat_e7;
            place_.lon_e7 = sample.lon_e7;
            if (!place_.place_known) weight_.set_latitude(static_cast<Real>(sample.lat_e7) * Real(1e-7));
            place_.place_known = true;
            swath_.set_place(sample.lat_e7, sample.lon_e7);
            break;
        case Channel::hits: hits_.add(sample.time_us, static_cast<Real>(sample.value[0])); break;
        case Channel::tray: take_tray(sample, place); break;
    }
    const Real area_m2 = swath_.take_area();
    if (area_m2 > Real(0)) {
        totals_.area_m2.add(area_m2);
        loads_.cut(sample.time_us);
    }
    if (started_) {
        judge_state();
        judge_alarms();
    }
    return FeedResult::taken;
}

FeedResult Estimator::step(TimeUs now_us) {
    if (any_sample_ && now_us < now_us_) return FeedResult::time_back;
    now_us_ = now_us;
    if (started_) {
        judge_state();
        judge_alarms();
    }
    return FeedResult::taken;
}

void Estimator::take_speed(const Sample& sample) {
    const bool stood = !swath_.moving();
    swath_.set_speed(sample.time_us, static_cast<Real>(sample.value[0]));
    if (!stood || !swath_.moving() || !speed_doubted_) return;
    // A dead speed has come back: what the drum holds has most likely been cut at that speed too; where
    // the reel still says no, only what is cut from now on is known.
    speed_doubted_ = false;
    if (intake_doubted_until_us_ <= sample.time_us) return;
    const TimeUs through_us = microseconds(filter_.dead_time_s());
    const TimeUs until_us = sample.time_us + (swath_.assume_worked(through_us) ? 0 : through_us);
    if (until_us < intake_doubted_until_us_) intake_doubted_until_us_ = until_us;
}

bool Estimator::shaking() const {
    return swath_.moving() || (swath_.reel_known() && swath_.taking_in());
}

void Estimator::take_weight(const Sample& sample) {
    const TimeUs time_us = sample.time_us;
    const Real weight_kg = weight_.condition(sample);
    weight_.judge_stuck(sample, swath_.moving(), flow_expected());
    if (!started_) {
        begin(time_us, weight_kg);
        return;
    }
    if (power_was_cut_) {
        weigh_after_cut(time_us, weight_kg);
        return;
    }
    if (weight_.stuck() || at_end_of_scale(weight_kg)) {
        predict_to(time_us);
        if (!held_) unlearn_stuck(time_us);
        if (weight_.stuck() && weight_kg > kCeilingShare * parameters_.hopper_capacity_kg)
            ceiling_kg_ = weight_kg;
        held_ = true;
        return;
    }
    // A scale that stuck has been away, but the filter went on: it need not be started afresh.
    if (time_us - weight_us_ > microseconds(parameters_.outage_s) && !held_) {
        resume_after_outage(time_us, weight_kg);
    } else {
        const Real silent_s = seconds(time_us - filter_us_);
        predict_to(time_us);
        if (silent_s > kSilenceS) doubt_silence(time_us, silent_s);
        follow(time_us, weight_kg);
    }
    held_ = false;
    weight_us_ = time_us;
    area_at_weight_ = totals_.area_m2;
}

// Nobody saw what came in a gap: the weight after it says so better than the filter.
void Estimator::doubt_silence(TimeUs time_us, Real silent_s) {
    const Real doubt_kg = kSilenceDoubtShare * silent_s * filter_.belief().mean(FlowFilter::flow);
    filter_.retell_mass(mass_kg(), mass_variance() + doubt_kg * doubt_kg);
    if (silent_s < kSilenceToldS) return;
    resumed_ = true;
    resumed_us_ = time_us;
}

// Until a reading is known to be stuck the filter has followed it: it takes that back. What has come since is
// told by the area and the yield of before.
void Estimator::unlearn_stuck(TimeUs time_us) {
    blockage_.reset();
    const LookBack::Moment* before = look_back_.before(weight_.same_since_us() - kLookBackUs);
    if (before == nullptr || tips_.phase() != TipWatch::Phase::idle) return;
    const Real counted_kg = totals_.inflow_kg.since(before->totals.inflow_kg);
    filter_.recall(before->mean);
    const Real usual_rate = swath_.usual_speed_mps() * parameters_.width_m;
    const Real came_kg = totals_.area_m2.since(before->totals.area_m2) * filter_.yield_kgpm2(usual_rate);
    totals_.inflow_kg.add(came_kg - counted_kg);
    const Real doubt_kg = kCameDoubtShare * came_kg;
    filter_.retell_mass(before->mean(FlowFilter::mass) + came_kg, mass_variance() + doubt_kg * doubt_kg);
    filter_.loosen_flow(kCameDoubtShare * before->mean(FlowFilter::flow));
    loads_.weigh_afresh(time_us, mass_kg(), mass_variance(), totals_);
    look_back_.forget();
}

// Once a full hopper's weight has stuck, a reading that shakes a little below that place says nothing as long
// as as much should be in the hopper. One that goes well beyond proves that the scale does not end there.
bool Estimator::at_end_of_scale(Real weight_kg) {
    if (weight_kg > ceiling_kg_ + kEndOfScaleKg) ceiling_kg_ = Real(0);
    return ceiling_kg_ > Real(0) && weight_kg > ceiling_kg_ - kEndOfScaleKg &&
           mass_kg() > ceiling_kg_ - kEndOfScaleKg;
}

// In crop the flow of a while ago counts as well: a weight that nears the end of its scale takes the flow
// with it.
Real Estimator::flow_expected() const {
    const Real now_kgps = filter_.belief().mean(FlowFilter::flow);
    const LookBack::Moment* earlier = look_back_.before(now_us_ - kLookBackUs);
    if (earlier == nullptr || !swath_.taking_in()) return now_kgps;
    const Real then_kgps = earlier->mean(FlowFilter::flow);
    return then_kgps > now_kgps ? then_kgps : now_kgps;
}

void Estimator::begin(TimeUs time_us, Real weight_kg) {
    started_ = true;
    filter_us_ = time_us;
    weight_us_ = time_us;
    filter_.start(weight_kg, noise_.spread_kg2(true));
    loads_.start(time_us, weight_kg, mass_variance());
}

void Estimator::predict_to(TimeUs time_us) {
    // A dead sensor must not cost a walk through hours: what lies before the last outage span is skipped.
    const TimeUs longest_us = microseconds(parameters_.outage_s);
    if (time_us - filter_us_ > longest_us) filter_us_ = time_us - longest_us;
    const TimeUs step_us = time_us - filter_us_ > kCoarseFromUs ? kCoarseStepUs : kStepUs;
    while (filter_us_ < time_us) {
        predict_step(time_us - filter_us_ > step_us ? filter_us_ + step_us : time_us);
    }
}

void Estimator::predict_step(TimeUs to_us) {
    const TimeUs dead_time_us = microseconds(filter_.dead_time_s());
    const TimeUs cut_from_us = filter_us_ - dead_time_us;
    const TimeUs cut_to_us = to_us - dead_time_us;
    swath_.advance(cut_to_us + kSlopeUs < now_us_ ? cut_to_us + kSlopeUs : now_us_);
    Intake intake;
    intake.dt_s = seconds(to_us - filter_us_);
    intake.area_m2 = swath_.line().between(cut_from_us, cut_to_us);
    intake.distance_m = intake.area_m2 / parameters_.width_m;
    const Real after = swath_.line().between(cut_to_us, cut_to_us + kSlopeUs);
    const Real before = swath_.line().between(cut_from_us - kSlopeUs, cut_from_us);
    intake.area_rate_change_m2ps2 = (after - before) / seconds(kSlopeUs) / (intake.dt_s + seconds(kSlopeUs));
    intake.answered_m2ps = answered_m2ps(cut_to_us);
    // The doubt goes on for as long as peas come and speed and reel still know of none.
    const bool still_lying =
        intake.area_m2 <= Real(0) && filter_.belief().mean(FlowFilter::flow) > kFlowOfWork;
    const bool ends_now = filter_us_ < intake_doubted_until_us_ && to_us >= intake_doubted_until_us_;
    if (ends_now && still_lying) intake_doubted_until_us_ = to_us + kIntakeDoubtMoreUs;
    const bool remembered = cut_from_us > now_us_ - DelayLine::kReachUs && cut_from_us >= swath_known_us_;
    intake.known = remembered && swath_.speed_known(cut_to_us) && to_us >= intake_doubted_until_us_;
    if (!intake.known && filter_.belief().mean(FlowFilter::flow) > kFlowOfWork) {
        loads_.cut(to_us);
        intake.distance_m = swath_.usual_speed_mps() * intake.dt_s;
    }
    // In steady work the drum is as it was learnt at the last ramp.
    steady_us_ = intake.known && intake.area_m2 > Real(0) ? steady_us_ + (to_us - filter_us_) : 0;
    if (steady_us_ > kSteadyUs) filter_.keep_drum();
    idle_us_ = intake.known && intake.area_m2 <= Real(0) ? idle_us_ + (to_us - filter_us_) : 0;
    const Passage passage = filter_.predict(intake);
    totals_.lost_kg.add(passage.lost_kg);
    totals_.inflow_kg.add(filter_.belief().mean(FlowFilter::flow) * intake.dt_s);
    if (intake.known && intake.area_m2 > Real(0)) note_passed(intake, passage, cut_to_us);
    listen(filter_us_, to_us);
    filter_us_ = to_us;
}

void Estimator::follow(TimeUs time_us, Real weight_kg) {
    const Real spread_kg2 = noise_.spread_kg2(shaking());
    const Innovation<Real> innovation =
        innovation_of(filter_.belief(), FlowFilter::mass, weight_kg, spread_kg2);
    const Real residual_sd = math::sqrt(innovation.variance);
    SurpriseWatch::Verdict verdict = SurpriseWatch::Verdict::trust;
    if (!tips_.falling()) {
        verdict = surprise_.judge(time_us, time_us - weight_us_, innovation.residual, residual_sd);
        if (surprise_.dropped_out()) return;
    }
    switch (tips_.watch(time_us, weight_kg, innovation.residual, residual_sd)) {
        case TipWatch::Event::began: loads_.tip_began(tips_.suspected_us()); break;
        case TipWatch::Event::bottom: filter_.retell_mass(tips_.smoothed_kg(), spread_kg2); break;
        case TipWatch::Event::settled: settle_tip(time_us); break;
        case TipWatch::Event::none: break;
    }
    if (tips_.falling()) {
        filter_.retell_mass(weight_kg, spread_kg2 + kTipFollowKg * kTipFollowKg);
        surprise_.reset();
        return;
    }
    take_verdict(verdict, time_us, weight_kg, spread_kg2);
}

void Estimator::take_verdict(SurpriseWatch::Verdict verdict, TimeUs time_us, Real weight_kg,
                             Real spread_kg2) {
    if (verdict == SurpriseWatch::Verdict::trust) {
        if (!tips_.suspicious()) take_reading(time_us, weight_kg, spread_kg2);
        return;
    }
    if (verdict == SurpriseWatch::Verdict::wait) return;
    const Real before_kg = mass_kg();
    filter_.retell_mass(tips_.smoothed_kg(), spread_kg2);
    drum_empty_ = false;
    switch (verdict) {
        case SurpriseWatch::Verdict::tipped: take_unseen_tip(time_us, Real(0)); break;
        case SurpriseWatch::Verdict::filled: filter_.loosen_flow(kFlowDoubt); break;
        case SurpriseWatch::Verdict::crept: doubt_intake(time_us); break;
        default:
            loads_.mass_jumped(mass_kg() - before_kg);
            jumped_ = true;
            jump_us_ = time_us;
            break;
    }
}

void Estimator::take_reading(TimeUs time_us, Real weight_kg, Real spread_kg2) {
    noise_.learn(time_us, shaking(), weight_kg, filter_.belief().mean(FlowFilter::flow));
    const Real noise_kg2 = noise_.variance_kg2(shaking());
    const Innovation<Real> innovation = filter_.update(weight_kg, noise_kg2, spread_kg2);
    if (flow_due() > kFlowOfWork) {
        blockage_.add(seconds(time_us - weight_us_), innovation, noise_kg2);
    } else {
        blockage_.reset();
    }
    watch_empty_drum(time_us);
    if (tips_.phase() != TipWatch::Phase::idle) return;
    look_back_.remember(time_us, filter_, totals_);
    loads_.remember(time_us, mass_kg(), mass_variance(), totals_);
}

// From here on the flow follows the weight alone, for a while.
void Estimator::doubt_intake(TimeUs time_us) {
    filter_.recall_drum();
    filter_.loosen_flow(kFlowDoubt);
    intake_doubted_until_us_ = time_us + kIntakeDoubtUs;
    speed_doubted_ = !swath_.moving();
    drum_empty_ = false;
}

// With no crop taken in for long enough the drum has run empty: a hopper that goes on filling gives speed or
// reel the lie, however slowly it shows.
void Estimator::watch_empty_drum(TimeUs time_us) {
    const bool empty = seconds(idle_us_) > filter_.dead_time_s() + Real(5) * filter_.lag_s();
    if (!empty || !drum_empty_) {
        drum_empty_ = empty;
        empty_mass_kg_ = mass_kg();
        return;
    }
    const Real limit_kg = kEmptyDrumSd * math::sqrt(mass_variance());
    if (mass_kg() - empty_mass_kg_ > (limit_kg > kEmptyDrumKg ? limit_kg : kEmptyDrumKg))
        doubt_intake(time_us);
}

void Estimator::take_unseen_tip(TimeUs time_us, Real doubt_kg) {
    drum_empty_ = false;
    if (loads_.tip_unseen(time_us, mass_kg(), mass_variance(), doubt_kg, totals_)) place_last_load();
}

void Estimator::settle_tip(TimeUs time_us) {
    drum_empty_ = false;
    if (loads_.tip_settled(time_us, mass_kg(), mass_variance(), totals_)) place_last_load();
    take_zero(time_us);
}

void Estimator::place_last_load() {
    if (place_.place_known) loads_.place_last(place_.lat_e7, place_.lon_e7);
}

void Estimator::take_zero(TimeUs time_us) {
    if (math::abs(mass_kg()) > kEmptyShare * parameters_.hopper_capacity_kg) return;
    const Real shift_kg = weight_.take_zero(time_us, mass_kg(), mass_variance());
    filter_.shift_mass(shift_kg);
    look_back_.forget();
    drum_empty_ = false;
    loads_.mass_shifted(shift_kg);
}

void Estimator::resume_after_outage(TimeUs time_us, Real weight_kg) {
    const Real before_kg = mass_kg();
    const bool in_tip = loads_.in_tip();
    const Real cut_m2 = totals_.area_m2.since(area_at_weight_);
    // With the speed silent too nobody knows what came meanwhile: as much as before is possible.
    const Real going_on_kg = filter_.belief().mean(FlowFilter::flow) * seconds(time_us - weight_us_);
    const Real most_kg = kUnseenShare * parameters_.hopper_capacity_kg;
    const Real unseen_kg = cut_m2 > Real(0) ? Real(0) : math::clamp(going_on_kg, Real(0), most_kg);
    totals_.inflow_kg.add(cut_m2 * filter_.yield_ahead_kgpm2(swath_.usual_speed_mps() * parameters_.width_m));
    filter_.retell_mass(weight_kg, noise_.spread_kg2(true));
    filter_.loosen_flow(kFlowDoubt);
    filter_us_ = time_us;
    resumed_ = true;
    resumed_us_ = time_us;
    tips_.reset();
    surprise_.reset();
    if (in_tip) {
        settle_tip(time_us);
    } else if (weight_kg < before_kg - kUnseenFallKg) {
        take_unseen_tip(time_us, unseen_kg);
    }
    loads_.weigh_afresh(time_us, mass_kg(), mass_variance(), totals_);
}

void Estimator::judge_state() {
    StateJudge::Scene scene;
    scene.time_us = now_us_;
    const bool peas_come = filter_.belief().mean(FlowFilter::flow) > kFlowOfWork;
    const bool doubted = now_us_ < intake_doubted_until_us_;
    const bool speed_known = swath_.speed_known(now_us_) && !(doubted && !swath_.moving());
    scene.moving = speed_known ? swath_.moving() : peas_come;
    scene.reel_known = swath_.reel_known() && !doubted;
    scene.taking_in = !doubted && (speed_known || scene.reel_known) ? swath_.taking_in() : peas_come;
    scene.tipping = tips_.falling();
    scene.speed_mps = swath_.speed_mps();
    scene.level_share = mass_kg() / parameters_.hopper_capacity_kg;
    judge_.judge(scene);
}

}  // namespace podrate
