// Square root through the C library: the one libm function that IEEE 754 rounds the same everywhere.
#pragma once

#include <cmath>

namespace podrate::math {

inline float sqrt(float x) {
    return x <= 0.0F ? 0.0F : std::sqrt(x);
}
inline double sqrt(double x) {
    return x <= 0.0 ? 0.0 : std::sqrt(x);
}

}  // namespace podrate::math
