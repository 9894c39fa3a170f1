// What the estimator tells of its state.
#include "podrate/choices.hpp"
#include "podrate/estimator.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::told;

const char* name_of_fault(int index) {
    switch (index) {
        case 0: return "weight_missing";
        case 1: return "weight_stuck";
        case 2: return "weight_jump";
        case 3: return "speed_missing";
        case 4: return "intake_unclear";
        case 5: return "tilt_dead";
        default: return "";
    }
}

std::uint8_t Estimator::faults_now() const {
    unsigned faults = 0;
    // An outage is told after it too: while it lasts nobody may be there to hear.
    const bool was_out = resumed_ && now_us_ - resumed_us_ < kJumpShownUs;
    if (was_out || (now_us_ - weight_us_ > kWeightMissingUs && !weight_.stuck())) faults |= kWeightMissing;
    if (weight_.stuck() || held_ || weight_.cell_dead()) faults |= kWeightStuck;
    if (surprise_.dropped_out() || (jumped_ && now_us_ - jump_us_ < kJumpShownUs)) faults |= kWeightJump;
    if (now_us_ < intake_doubted_until_us_) faults |= kIntakeUnclear;
    if (!swath_.speed_known(now_us_)) faults |= kSpeedMissing;
    if (tilt_.dead(now_us_)) faults |= kTiltDead;
    return static_cast<std::uint8_t>(faults);
}

void Estimator::read_weighed(Estimate& e) const {
    e.time_us = now_us_;
    e.started = started_;
    if (!started_) return;
    const FlowFilter::Belief& belief = filter_.belief();
    e.state = judge_.state();
    e.faults = faults_now();
    e.alarms = alarms_.shown();

    e.mass_kg = mass_kg();
    e.mass_sd_kg = math::sqrt(mass_variance() + weight_.zero_variance_kg2(now_us_));
    e.flow_kgps = belief.mean(FlowFilter::flow);
    e.flow_sd_kgps = math::sqrt(belief.covariance(FlowFilter::flow, FlowFilter::flow));

    e.speed_mps = swath_.speed_mps();
    e.harvested_kg = loads_.harvested_kg(e.mass_kg, totals_);
    e.harvested_sd_kg = loads_.harvested_sd_kg(e.harvested_kg, mass_variance());
    e.area_m2 = totals_.area_m2.value();
    e.load_kg = loads_.gathered_kg(e.mass_kg);
    e.level_share = e.mass_kg / parameters_.hopper_capacity_kg;
    e.oldest_cut_us = loads_.oldest_cut_us();
}

Estimate Estimator::read() const {
    Estimate e;
    read_weighed(e);
    if (!started_) return e;
    const Real usual_rate = swath_.usual_speed_mps() * parameters_.width_m;
    const Real rate = e.state == WorkState::harvesting ? swath_.area_rate_m2ps() : usual_rate;
    e.yield_kgpm2 = filter_.yield_kgpm2(rate);
    e.yield_sd_kgpm2 = e.yield_kgpm2 * math::sqrt(filter_.ln_yield_variance(rate) +
                                                  kYieldPatches * parameters_.crop_patch_m / kYieldOverM);
    read_loss(rate, e);
    e.advice = advisor_.advice();

    e.distance_to_full_m = Real(-1);
    e.time_to_full_s = Real(-1);
    const Real per_metre_kg = filter_.yield_ahead_kgpm2(usual_rate) * parameters_.width_m;
    if (usual_rate > Real(0) && per_metre_kg > Real(0)) {
        const Real room_kg = parameters_.hopper_capacity_kg - e.mass_kg;
        e.distance_to_full_m = room_kg > Real(0) ? room_kg / per_metre_kg : Real(0);
        e.time_to_full_s = e.distance_to_full_m / swath_.usual_speed_mps();
    }
    return e;
}

}  // namespace podrate
