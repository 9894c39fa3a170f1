#include "podrate/filter/whiteness.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::whiteness;

void Whiteness::restart() {
    *this = Whiteness();
}

bool Whiteness::add(Real dt_s, Real residual, Real state_variance, Real noise_variance, Real& score) {
    span_s_ += dt_s;
    sum_ += residual;
    state_sum_ += state_variance;
    noise_sum_ += noise_variance;
    ++count_;
    if (span_s_ < kBlockS) return false;
    const Real count = static_cast<Real>(count_);
    const Real mean = sum_ / count;
    const Real variance = (state_sum_ + noise_sum_ / count) / count;
    const bool ready = past_variance_ > Real(0);
    if (ready) score = math::clamp(mean * past_ / math::sqrt(variance * past_variance_), -kMost, kMost);
    past_ = kMemory * past_ + mean;
    past_variance_ = kMemory * kMemory * past_variance_ + variance;
    span_s_ = Real(0);
    sum_ = Real(0);
    state_sum_ = Real(0);
    noise_sum_ = Real(0);
    count_ = 0;
    return ready;
}

}  // namespace podrate
