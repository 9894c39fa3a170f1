// Normal gravity on the WGS 84 ellipsoid.
#pragma once

#include "podrate/math/square_root.hpp"
#include "podrate/math/wgs84.hpp"

namespace podrate {

// m/s2 on the ellipsoid, by Somigliana's closed formula with the defining constants of WGS 84. `sin2` is the
// squared sine of latitude.
template <class T>
T normal_gravity_mps2(T sin2) {
    return T(9.7803253359) * (T(1) + T(0.00193185265241) * sin2) /
           math::sqrt(T(1) - T(math::kEccentricity2) * sin2);
}

}  // namespace podrate
