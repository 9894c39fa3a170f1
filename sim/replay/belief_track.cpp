#include "replay/belief_track.hpp"

#include <cmath>
#include <utility>

namespace podrate::sim {
namespace {

// Half a drum's lag at most, under two metres of swath.
constexpr TimeUs kBeliefStepUs = 2 * kSecondUs;

}  // namespace

void BeliefTrack::note(const FlowFilter& filter, const Estimate& e) {
    tipped_ = tipped_ || e.state == WorkState::tipping;
    if (!due(e.time_us)) return;
    next_us_ = e.time_us + kBeliefStepUs;
    BeliefStep step;
    step.time_us = e.time_us;
    const FlowFilter::Belief& belief = filter.belief();
    std::size_t at = 0;
    for (int i = 0; i < BeliefStep::kStates; ++i) {
        step.mean[static_cast<std::size_t>(i)] = static_cast<float>(belief.mean(i));
        for (int j = 0; j <= i; ++j) step.covariance[at++] = static_cast<float>(belief.covariance(i, j));
    }
    step.passed_ratio =
        static_cast<float>(e.yield_kgpm2) / std::exp(static_cast<float>(belief.mean(FlowFilter::ln_crop)));
    step.lag_s = static_cast<float>(filter.lag_s());
    step.crop_cv = static_cast<float>(filter.crop_cv());
    if (e.loss_sensor) step.loss_share = static_cast<float>(e.loss_share);
    step.mass_retold = std::exchange(tipped_, false);
    steps_.push_back(step);
}

std::vector<BeliefStep> BeliefTrack::take_steps() {
    return std::exchange(steps_, {});
}

}  // namespace podrate::sim
