#include "podrate/filter/innovation_block.hpp"

#include "podrate/choices.hpp"

namespace podrate {

bool InnovationBlock::add(Real dt_s, Real residual, Real state_variance, Real noise_variance) {
    span_s_ += dt_s;
    residual_sum_ += residual;
    state_sum_ += state_variance;
    noise_sum_ += noise_variance;
    ++count_;
    if (span_s_ < choices::innovations::kBlockS) return false;
    const Real count = static_cast<Real>(count_);
    const Real mean = residual_sum_ / count;
    const Real variance = (state_sum_ + noise_sum_ / count) / count;
    *this = InnovationBlock();
    mean_ = mean;
    variance_ = variance;
    return true;
}

}  // namespace podrate
