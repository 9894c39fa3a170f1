// What the estimator shows its alarms, its advice and its record of pauses.
#include "podrate/choices.hpp"
#include "podrate/estimator.hpp"

namespace podrate {

using namespace choices::alarm;

// Peas that the crop cut a dead time ago should bring now, at the crop's mean, kg/s.
Real Estimator::flow_due() const {
    const TimeUs cut_us = filter_us_ - microseconds(filter_.dead_time_s() + filter_.lag_s());
    const Real rate_m2ps = swath_.line().between(cut_us - kSecondUs, cut_us);
    return rate_m2ps * ahead_kgpm2_;
}

void Estimator::judge_alarms() {
    // Alarms and advice are the dearest: where samples come often enough they take turns.
    if (now_us_ > alarms_us_) look_for_advice();
    if (now_us_ - alarms_us_ < kJudgeEveryUs) return;
    alarms_us_ = now_us_;
    alarms_.judge(alarm_scene());
    advice_waits_ = judge_.state() == WorkState::harvesting && advisor_.due(now_us_);
    watch_pause();
}

AlarmScene Estimator::alarm_scene() const {
    const Real flow_kgps = filter_.belief().mean(FlowFilter::flow);
    const WorkState state = judge_.state();
    const bool harvesting = state == WorkState::harvesting;
    const std::uint8_t faults = faults_now();
    AlarmScene scene;
    scene.now_us = now_us_;
    scene.state = state;
    if (harvesting) scene.loss_share = loss_shares(loss_here(swath_.area_rate_m2ps())).total.share;
    scene.rate_wanted = parameters_.wanted_rate_kgps > Real(0);
    if (scene.rate_wanted) scene.rate_share = flow_kgps / parameters_.wanted_rate_kgps;
    scene.level_share = mass_kg() / parameters_.hopper_capacity_kg;
    scene.level_known = (faults & kWeightMissing) == 0;
    // A scale that has stuck falls short as a blocked drum does, but a blocked drum's scale still shakes.
    if (!weight_.repeats(now_us_) && flow_kgps < kBlockedShare * flow_due())
        scene.blocking_sd = blockage_.sum_sd();
    scene.leak_watched = drum_empty_;
    scene.leak_kg = empty_mass_kg_ - mass_kg();
    scene.weight_fault = (faults & (kWeightMissing | kWeightStuck | kWeightJump)) != 0;
    scene.speed_fault = (faults & (kSpeedMissing | kIntakeUnclear)) != 0;
    scene.tilt_fault = (faults & kTiltDead) != 0;
    const TimeUs oldest_us = loads_.oldest_cut_us();
    scene.holds_peas = oldest_us > 0;
    if (scene.holds_peas) {
        const TimeUs oldest_s = (now_us_ - oldest_us) / kSecondUs;
        scene.oldest_min = static_cast<Real>(oldest_s) / Real(60);
    }
    return scene;
}

void Estimator::look_for_advice() {
    if (!advice_waits_) return;
    advice_waits_ = false;
    if (judge_.state() == WorkState::harvesting) advisor_.look(now_us_, filter_, swath_.speed_mps());
}

void Estimator::watch_pause() {
    const Real feed_kgps = filter_.feed_kgps(swath_.area_rate_m2ps());
    const Real haulm_share = parameters_.haulm_ratio / (Real(1) + parameters_.haulm_ratio);
    PauseWatch::Scene scene;
    scene.time_us = now_us_;
    scene.state = judge_.state();
    scene.haulm_held_kg = feed_kgps * haulm_share * (filter_.dead_time_s() + filter_.lag_s());
    scene.came_kg = totals_.inflow_kg.value();
    // What is cut is still in the drum for a lag.
    scene.expected_kg = due_kg_.value() - filter_.lag_s() * filter_.belief().mean(FlowFilter::flow);
    scene.lat_e7 = place_.lat_e7;
    scene.lon_e7 = place_.lon_e7;
    scene.place_known = place_.place_known;
    if (pauses_.watch(scene)) ++pause_news_;
}

}  // namespace podrate
