// The ellipsoid of WGS 84.
#pragma once

namespace podrate::math {

inline constexpr double kEquatorialRadiusM = 6378137.0;
inline constexpr double kEccentricity2 = 0.00669437999014;  // the first one, squared

}  // namespace podrate::math
