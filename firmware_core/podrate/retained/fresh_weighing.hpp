// The hopper's weight after a power cut, from readings that agree.
#pragma once

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// One reading must not decide on a load: an indicator that starts up may say anything, and peas may still be
// pouring. So the weight counts once its mean over a second has stayed as it was, or risen no faster than a
// hopper fills, twice in a row.
class FreshWeighing {
  public:
    // True when mean_kg() is the weight.
    bool add(TimeUs time_us, Real weight_kg);
    [[nodiscard]] Real mean_kg() const { return mean_kg_; }

  private:
    bool close();
    TimeUs since_us_ = 0;
    Real sum_kg_ = Real(0);  // of this second's readings
    int count_ = 0;
    Real mean_kg_ = Real(0);  // of the second before
    bool any_mean_ = false;
    int agreements_ = 0;
};

}  // namespace podrate
