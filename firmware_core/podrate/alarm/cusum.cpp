#include "podrate/alarm/cusum.hpp"

#include "podrate/alarm/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::alarm;

bool Cusum::add(Real x_sd) {
    if (x_sd == x_sd) sum_sd_ = math::clamp(sum_sd_ + x_sd - k_sd_, Real(0), kCusumCeiling * h_sd_);
    return over();
}

}  // namespace podrate
