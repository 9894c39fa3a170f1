// What the flow filter believed over a day, step by step, for looking back at it.
#pragma once

#include <array>
#include <vector>

#include "podrate/estimate.hpp"
#include "podrate/filter/flow_filter.hpp"

namespace podrate::sim {

// At one moment. Small, since a day has 43,200 of them.
struct BeliefStep {
    static constexpr int kStates = 4;  // mass kg, flow kg/s, ln_crop, ln_mean: the filter's first four
    TimeUs time_us = 0;
    std::array<float, kStates> mean{};
    std::array<float, kStates*(kStates + 1) / 2> covariance{};  // row by row, up to the diagonal
    float passed_ratio = 1.0F;                                  // yield here over exp(ln_crop)
    float lag_s = 0.0F;
    float crop_cv = 0.0F;      // as learnt so far, as ln
    float loss_share = 0.0F;   // told then, where a loss sensor speaks; else 0
    bool mass_retold = false;  // since the step before: tipping, or a jump
};

class BeliefTrack {
  public:
    // Whether a step is noted at that time: its estimate must be whole.
    [[nodiscard]] bool due(TimeUs time_us) const { return time_us >= next_us_; }
    // After each row.
    void note(const FlowFilter& filter, const Estimate& estimate);
    [[nodiscard]] std::vector<BeliefStep> take_steps();

  private:
    std::vector<BeliefStep> steps_;
    TimeUs next_us_ = 0;
    bool tipped_ = false;
};

}  // namespace podrate::sim
