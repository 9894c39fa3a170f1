// Places: on the globe, and on a plane about an origin.
#pragma once

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

// Corners in order; the last is not the first again.
using Ring = std::vector<LatLon>;

}  // namespace podrate::sim
