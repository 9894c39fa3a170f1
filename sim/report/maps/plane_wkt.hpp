// Planes and the globe as well-known text, for files that must carry it.
#pragma once

#include <string>

#include "geo/utm_plane.hpp"

namespace podrate::sim {

// OGC 01-009, as EPSG 4326.
inline constexpr const char* kWgs84Wkt =
    R"(GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],)"
    R"(AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],)"
    R"(UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4326"]])";

std::string plane_wkt(const UtmPlane& plane);

}  // namespace podrate::sim
