// A drum that blocks: crop goes in, the weight grows less than it should, and goes on doing so.
#pragma once

#include "podrate/alarm/choices.hpp"
#include "podrate/alarm/cusum.hpp"
#include "podrate/filter/innovation_block.hpp"
#include "podrate/filter/kalman.hpp"
#include "podrate/real.hpp"

namespace podrate {

// The filter's innovations are averaged over blocks of two seconds and summed up (Cusum) where they fall
// short. With k = 0.75 and the limit at 6 sd independent innovations would raise it once in some 40,000
// blocks, 23 hours of harvest (Siegmund's formula, see cusum.hpp).
class BlockageWatch {
  public:
    // limit_sd: of the alarm; the sum is kept to at most twice that.
    explicit BlockageWatch(Real limit_sd);

    // A reading that came `dt_s` after the one before; `noise`: of its variance, what belongs to the reading.
    void add(Real dt_s, const Innovation<Real>& innovation, Real noise_variance_kg2);
    void reset();

    [[nodiscard]] Real sum_sd() const { return shortfall_.sum_sd(); }

  private:
    Cusum shortfall_;
    InnovationBlock block_;
};

}  // namespace podrate
