// Places: on the globe, and on a plane about an origin.
#pragma once

namespace podrate::sim {

struct LatLon {
    double lat_deg = 0.0;  // WGS 84
    double lon_deg = 0.0;
};

struct EastNorth {
    double east_m = 0.0;
    double north_m = 0.0;
};

}  // namespace podrate::sim
