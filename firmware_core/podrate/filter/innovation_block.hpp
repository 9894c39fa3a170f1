// Innovations averaged over some seconds, longer than a drum's tone and a chassis's sway.
#pragma once

#include "podrate/real.hpp"

namespace podrate {

class InnovationBlock {
  public:
    // One innovation that came `dt_s` after the one before; its variance: the state's share and the reading's
    // noise, apart. True where a block is full: mean() and variance() are then its own until the next call.
    bool add(Real dt_s, Real residual, Real state_variance, Real noise_variance);

    [[nodiscard]] Real mean() const { return mean_; }
    // Of that mean: the noise of single readings averages out, the state's share does not.
    [[nodiscard]] Real variance() const { return variance_; }

  private:
    Real span_s_ = Real(0);
    Real residual_sum_ = Real(0);
    Real state_sum_ = Real(0);
    Real noise_sum_ = Real(0);
    int count_ = 0;
    Real mean_ = Real(0);
    Real variance_ = Real(0);
};

}  // namespace podrate
