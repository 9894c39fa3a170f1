// Places: on the globe, and on a plane about an origin.
#pragma once

#include <cmath>
#include <vector>

namespace podrate::sim {

struct LatLon {
    double lat_deg = 0.0;  // WGS 84
    double lon_deg = 0.0;
};

struct EastNorth {
    double east_m = 0.0;
    double north_m = 0.0;
};

// Not std::hypot: metres of a field neither overflow nor vanish, and it costs several times as much.
inline double length_of_m(double east_m, double north_m) {
    return std::sqrt(east_m * east_m + north_m * north_m);
}

// Corners in order; the last is not the first again.
using Ring = std::vector<LatLon>;

}  // namespace podrate::sim
