// What people read for what is computed.
#pragma once

namespace podrate::sim {

inline constexpr double kTphPerKgps = 3.6;
inline constexpr double kKmphPerMps = 3.6;
inline constexpr double kTphaPerKgpm2 = 10.0;
inline constexpr double kKgphaPerKgpm2 = 1e4;

}  // namespace podrate::sim
