// East and north in metres about an origin, to and from latitude and longitude.
#pragma once

#include "geo/place.hpp"

namespace podrate::sim {

// Tangent plane by the ellipsoid's radii of curvature at the origin. Within 3 km of it a place is right to 1
// m and a distance of 100 m to 5 cm; made of + - * / and our own sine, so that synthetic days have the same
// bytes everywhere.
class LocalFrame {
  public:
    explicit LocalFrame(LatLon origin);
    [[nodiscard]] LatLon to_lat_lon(EastNorth place) const;
    [[nodiscard]] EastNorth to_east_north(LatLon place) const;

  private:
    LatLon origin_;
    double metres_per_lat_deg_;
    double metres_per_lon_deg_;
};

}  // namespace podrate::sim
