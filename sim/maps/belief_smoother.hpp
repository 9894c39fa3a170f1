// Goes back over a machine's day in steps of its flow filter: what was cut in each, by all that the weight
// told before and after.
#pragma once

#include <Eigen/Core>
#include <Eigen/LU>

#include "replay/belief_track.hpp"

namespace podrate::sim {

// The drum and the crop between two steps.
struct DrumStep {
    double dt_s = 0.0;
    double area_m2 = 0.0;  // taken in: cut a dead time earlier
    double width_m = 0.0;
    double crop_length_m = 0.0;
    double patch_m = 0.0;
    double flow_noise_share = 0.0;
    double mean_drift = 0.0;  // sd of ln_mean over a metre
};

// As the filter's own: the weight told it its beliefs forward, this carries later ones back. The cut peas of
// a step are part crop and part noise of a few paces, which the weight tells afterwards, too.
class BeliefSmoother {
  public:
    static constexpr int kSize = BeliefStep::kStates;
    using State = Eigen::Matrix<double, kSize, 1>;
    using Spread = Eigen::Matrix<double, kSize, kSize>;

    // At the day's end, or before a gap: nothing later tells.
    void begin(const BeliefStep& last);

    // One step back, from `later` to `at`; afterwards the figures below are of what was cut between.
    void step(const BeliefStep& at, const BeliefStep& later, const DrumStep& drum);

    [[nodiscard]] double kg() const { return kg_; }
    // Of that: alone, and with the state after the step (before it was carried back).
    [[nodiscard]] double variance_kg2() const { return variance_kg2_; }
    [[nodiscard]] const State& pull() const { return pull_; }
    // With the state at the step's beginning.
    [[nodiscard]] const State& with_state() const { return with_state_; }
    // How what is tied to the state after the step is tied to the one before.
    [[nodiscard]] const Spread& gain() const { return gain_; }

  private:
    State mean_ = State::Zero();
    Spread spread_ = Spread::Zero();
    Spread gain_ = Spread::Zero();
    State pull_ = State::Zero();
    State with_state_ = State::Zero();
    double kg_ = 0.0;
    double variance_kg2_ = 0.0;
};

}  // namespace podrate::sim
