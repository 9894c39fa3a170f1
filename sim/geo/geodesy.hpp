// Distances and areas on the WGS 84 ellipsoid (GeographicLib).
#pragma once

#include "geo/place.hpp"

namespace podrate::sim {

double distance_m(LatLon a, LatLon b);

// Signed: counter-clockwise is positive.
double ring_area_m2(const Ring& ring);

}  // namespace podrate::sim
