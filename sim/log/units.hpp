// What people read for what is computed.
#pragma once

namespace podrate::sim {

inline constexpr double kTphPerKgps = 3.6;
inline constexpr double kKmphPerMps = 3.6;
inline constexpr double kTphaPerKgpm2 = 10.0;
inline constexpr double kKgphaPerKgpm2 = 1e4;

// Standard deviations to each end of the range that holds a normal quantity 9 times in 10.
inline constexpr double kReach90 = 1.6448536;

}  // namespace podrate::sim
