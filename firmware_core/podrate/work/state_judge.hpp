// Decides the work state from motion, reel, mass and tips.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate {

// Whether crop is being taken in: from the reel where it is logged, else guessed from speed and heading.
class IntakeJudge {
  public:
    explicit IntakeJudge(const Parameters& parameters) : travel_speed_mps_(parameters.travel_speed_mps) {}
    void set_reel(bool on);
    void set_heading(TimeUs time_us, Real heading_deg);
    [[nodiscard]] bool reel_known() const { return reel_known_; }
    [[nodiscard]] bool reel_on() const { return reel_on_; }
    [[nodiscard]] bool taking_in(Real speed_mps) const;

  private:
    Real travel_speed_mps_;
    bool reel_known_ = false;
    bool reel_on_ = false;
    bool heading_known_ = false;
    bool turning_ = false;
    TimeUs heading_time_us_ = 0;
    Real heading_deg_ = Real(0);
    Real turn_rate_dps_ = Real(0);
};

class StateJudge {
  public:
    struct Scene {
        TimeUs time_us = 0;
        bool moving = false;
        bool reel_known = false;
        bool taking_in = false;  // or would be, if it moved
        bool tipping = false;
        Real speed_mps = Real(0);
        Real level_share = Real(0);  // hopper content over capacity
    };

    explicit StateJudge(const Parameters& parameters);
    void judge(const Scene& scene);
    [[nodiscard]] WorkState state() const { return state_; }

  private:
    [[nodiscard]] WorkState judge_moving(const Scene& scene);
    [[nodiscard]] WorkState judge_standing(const Scene& scene) const;

    WorkState state_ = WorkState::stopped;
    bool was_moving_ = false;
    bool far_ = false;  // this drive without the reel has become travel
    bool began_full_ = false;
    bool began_in_crop_ = false;
    TimeUs standing_since_us_ = 0;
    TimeUs idle_us_ = 0;  // driven with the reel off since crop was last taken in
    TimeUs last_us_ = 0;
    TimeUs tip_end_us_ = 0;
    bool tipped_here_ = false;
    Real travel_speed_mps_;
    Real wait_level_share_;
    TimeUs turn_longest_us_;
    TimeUs wait_longest_us_;
};

}  // namespace podrate
