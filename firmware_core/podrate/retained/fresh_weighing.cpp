#include "podrate/retained/fresh_weighing.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::retained;

bool FreshWeighing::add(TimeUs time_us, Real weight_kg) {
    const bool full = count_ > 0 && time_us - since_us_ >= kFreshUs;
    const bool ready = full && close();
    if (count_ == 0) since_us_ = time_us;
    sum_kg_ += weight_kg;
    ++count_;
    return ready;
}

bool FreshWeighing::close() {
    const Real mean_kg = sum_kg_ / static_cast<Real>(count_);
    const Real rise_kg = mean_kg - mean_kg_;
    const bool agrees = any_mean_ && rise_kg > -kFreshFallKg && rise_kg < kFreshRiseKg;
    agreements_ = agrees ? agreements_ + 1 : 0;
    any_mean_ = true;
    mean_kg_ = mean_kg;
    sum_kg_ = Real(0);
    count_ = 0;
    return agreements_ >= kFreshAgreements;
}

}  // namespace podrate
