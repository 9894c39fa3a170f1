#include "geo/geodesy.hpp"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>

namespace podrate::sim {

double distance_m(LatLon a, LatLon b) {
    double metres = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(a.lat_deg, a.lon_deg, b.lat_deg, b.lon_deg, metres);
    return metres;
}

double ring_area_m2(const Ring& ring) {
    GeographicLib::PolygonArea polygon(GeographicLib::Geodesic::WGS84());
    for (const LatLon& corner : ring) polygon.AddPoint(corner.lat_deg, corner.lon_deg);
    double perimeter_m = 0.0;
    double area_m2 = 0.0;
    polygon.Compute(false, true, perimeter_m, area_m2);
    return area_m2;
}

}  // namespace podrate::sim
