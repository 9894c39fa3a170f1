#include "podrate/work/state_judge.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::states;

const char* name_of(WorkState state) {
    switch (state) {
        case WorkState::harvesting: return "harvesting";
        case WorkState::turning: return "turning";
        case WorkState::paused_in_crop: return "paused_in_crop";
        case WorkState::waiting: return "waiting";
        case WorkState::tipping: return "tipping";
        case WorkState::travelling: return "travelling";
        case WorkState::stopped: return "stopped";
    }
    return "stopped";
}

void IntakeJudge::set_reel(bool on) {
    reel_known_ = true;
    reel_on_ = on;
}

void IntakeJudge::set_heading(TimeUs time_us, Real heading_deg) {
    if (heading_known_ && time_us > heading_time_us_) {
        const Real dt_s = seconds(time_us - heading_time_us_);
        Real change = heading_deg - heading_deg_;
        while (change > Real(180)) change -= Real(360);
        while (change < Real(-180)) change += Real(360);
        const Real share = math::clamp(dt_s / kHeadingMemoryS, Real(0), Real(1));
        turn_rate_dps_ += share * (math::abs(change) / dt_s - turn_rate_dps_);
        turning_ = turning_ ? turn_rate_dps_ > kTurnEndsDps : turn_rate_dps_ > kTurnBeginsDps;
    }
    heading_known_ = true;
    heading_time_us_ = time_us;
    heading_deg_ = heading_deg;
}

bool IntakeJudge::taking_in(Real speed_mps) const {
    if (reel_known_) return reel_on_;
    return speed_mps < travel_speed_mps_ && !turning_;
}

StateJudge::StateJudge(const Parameters& p)
    : travel_speed_mps_(p.travel_speed_mps),
      wait_level_share_(p.wait_level_share),
      turn_longest_us_(microseconds(p.turn_longest_s)),
      wait_longest_us_(microseconds(p.wait_longest_s)) {}

WorkState StateJudge::judge_moving(const Scene& scene) {
    tipped_here_ = false;
    if (scene.taking_in) {
        far_ = false;
        idle_us_ = 0;
        return WorkState::harvesting;
    }
    if (was_moving_) idle_us_ += scene.time_us - last_us_;
    if (scene.speed_mps > travel_speed_mps_ || idle_us_ > turn_longest_us_) far_ = true;
    return far_ ? WorkState::travelling : WorkState::turning;
}

WorkState StateJudge::judge_standing(const Scene& scene) const {
    if (tipped_here_ && scene.time_us - tip_end_us_ < kLoweringUs) return WorkState::tipping;
    const TimeUs stood_us = scene.time_us - standing_since_us_;
    if (scene.reel_known ? scene.taking_in : began_in_crop_ && !began_full_ && stood_us < kPauseLongestUs) {
        return WorkState::paused_in_crop;
    }
    if (began_full_ && !tipped_here_ && stood_us < wait_longest_us_) return WorkState::waiting;
    return WorkState::stopped;
}

void StateJudge::judge(const Scene& scene) {
    if (scene.tipping) {
        tipped_here_ = true;
        tip_end_us_ = scene.time_us;
    }
    if (!scene.moving && was_moving_) {
        standing_since_us_ = scene.time_us;
        began_full_ = scene.level_share > wait_level_share_;
        began_in_crop_ = state_ == WorkState::harvesting;
    }
    if (scene.tipping) {
        state_ = WorkState::tipping;
    } else {
        state_ = scene.moving ? judge_moving(scene) : judge_standing(scene);
    }
    was_moving_ = scene.moving;
    last_us_ = scene.time_us;
}

}  // namespace podrate
