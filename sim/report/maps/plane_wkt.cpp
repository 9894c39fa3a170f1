#include "report/maps/plane_wkt.hpp"

namespace podrate::sim {

std::string plane_wkt(const UtmPlane& plane) {
    const auto parameter = [](const char* name, const std::string& value) {
        return std::string(",PARAMETER[\"") + name + "\"," + value + "]";
    };
    const bool polar = plane.zone() == 0;
    std::string text = "PROJCS[\"" + plane.name() + "\"," + kWgs84Wkt + ",PROJECTION[\"" +
                       (polar ? "Polar_Stereographic" : "Transverse_Mercator") + "\"]";
    if (polar) {
        text += parameter("latitude_of_origin", plane.north() ? "90" : "-90") +
                parameter("central_meridian", "0") + parameter("scale_factor", "0.994") +
                parameter("false_easting", "2000000") + parameter("false_northing", "2000000");
    } else {
        text += parameter("latitude_of_origin", "0") +
                parameter("central_meridian", std::to_string(6 * plane.zone() - 183)) +
                parameter("scale_factor", "0.9996") + parameter("false_easting", "500000") +
                parameter("false_northing", plane.north() ? "0" : "10000000");
    }
    return text +
           R"(,UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST],AXIS["Northing",NORTH],)" +
           "AUTHORITY[\"EPSG\",\"" + std::to_string(plane.epsg()) + "\"]]";
}

}  // namespace podrate::sim
