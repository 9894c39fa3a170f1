#include "geo/local_frame.hpp"

#include <cmath>

#include "podrate/math/elementary.hpp"
#include "podrate/math/wgs84.hpp"

namespace podrate::sim {

LocalFrame::LocalFrame(LatLon origin) : origin_(origin) {
    const auto lat = math::sin_cos(math::deg_to_rad(origin.lat_deg));
    const double w2 = 1.0 - math::kEccentricity2 * lat.sin * lat.sin;
    const double w = std::sqrt(w2);
    const double meridian_m = math::kEquatorialRadiusM * (1.0 - math::kEccentricity2) / (w2 * w);
    const double parallel_m = math::kEquatorialRadiusM / w * lat.cos;
    metres_per_lat_deg_ = math::deg_to_rad(1.0) * meridian_m;
    metres_per_lon_deg_ = math::deg_to_rad(1.0) * parallel_m;
}

LatLon LocalFrame::to_lat_lon(EastNorth place) const {
    return {origin_.lat_deg + place.north_m / metres_per_lat_deg_,
            origin_.lon_deg + place.east_m / metres_per_lon_deg_};
}

EastNorth LocalFrame::to_east_north(LatLon place) const {
    return {(place.lon_deg - origin_.lon_deg) * metres_per_lon_deg_,
            (place.lat_deg - origin_.lat_deg) * metres_per_lat_deg_};
}

}  // namespace podrate::sim
