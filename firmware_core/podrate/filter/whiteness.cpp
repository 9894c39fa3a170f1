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
    if (!block_.add(dt_s, residual, state_variance, noise_variance)) return false;
    const Real mean = block_.mean();
    const Real variance = block_.variance();
    const bool ready = past_variance_ > Real(0);
    if (ready) score = math::clamp(mean * past_ / math::sqrt(variance * past_variance_), -kMost, kMost);
    past_ = kMemory * past_ + mean;
    past_variance_ = kMemory * kMemory * past_variance_ + variance;
    return ready;
}

}  // namespace podrate
