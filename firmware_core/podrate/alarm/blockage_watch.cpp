#include "podrate/alarm/blockage_watch.hpp"

#include "podrate/math/elementary.hpp"
#include "podrate/math/square_root.hpp"

namespace podrate {

using namespace choices::alarm;

BlockageWatch::BlockageWatch(Real limit_sd) : shortfall_(kBlockageK, limit_sd) {}

void BlockageWatch::add(Real dt_s, const Innovation<Real>& innovation, Real noise_variance_kg2) {
    span_s_ += dt_s;
    residual_sum_ += innovation.residual;
    state_sum_ += innovation.variance - noise_variance_kg2;
    noise_sum_ += noise_variance_kg2;
    ++count_;
    if (span_s_ < kBlockageBlockS) return;
    const Real count = static_cast<Real>(count_);
    const Real variance = (state_sum_ + noise_sum_ / count) / count;
    const Real off_sd = residual_sum_ / count / math::sqrt(variance);
    shortfall_.add(math::clamp(-off_sd, -kBlockageMostSd, kBlockageMostSd));
    span_s_ = Real(0);
    residual_sum_ = Real(0);
    state_sum_ = Real(0);
    noise_sum_ = Real(0);
    count_ = 0;
}

void BlockageWatch::reset() {
    shortfall_.reset();
    span_s_ = Real(0);
    residual_sum_ = Real(0);
    state_sum_ = Real(0);
    noise_sum_ = Real(0);
    count_ = 0;
}

}  // namespace podrate
