// The hopper's weight after a power cut, from readings that agree.
#pragma once

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// One reading must not decide on a load: an indicator that starts up may say anything, and peas may still be
// pouring. So the weight counts once readings have agreed to 30 kg for two seconds.
class FreshWeighing {
  public:
    // True when mean_kg() is the weight.
    bool add(TimeUs time_us, Real weight_kg) {
        using namespace choices::retained;
        if (count_ == 0 || math::abs(weight_kg - mean_kg_) > kFreshAgreesKg) {
            since_us_ = time_us;
            mean_kg_ = weight_kg;
            count_ = 1;
            return false;
        }
        if (count_ < kMostCounted) ++count_;
        mean_kg_ += (weight_kg - mean_kg_) / static_cast<Real>(count_);
        return count_ >= kFreshReadings && time_us - since_us_ >= kFreshUs;
    }
    [[nodiscard]] Real mean_kg() const { return mean_kg_; }

  private:
    static constexpr int kMostCounted = 1000;
    TimeUs since_us_ = 0;
    Real mean_kg_ = Real(0);
    int count_ = 0;
};

}  // namespace podrate
