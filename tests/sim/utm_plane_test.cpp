#include "geo/utm_plane.hpp"

#include <GeographicLib/UTMUPS.hpp>
#include <catch2/catch.hpp>
#include <cmath>

#include "synth/random.hpp"

using namespace podrate::sim;

namespace {

void check_near(LatLon near, int zone, bool north) {
    INFO(near.lat_deg << ' ' << near.lon_deg);
    UtmPlane plane(near);
    Random random(3, "places");
    for (int i = 0; i < 300; ++i) {
        const LatLon place{near.lat_deg + random.normal(0.0, 0.05), near.lon_deg + random.normal(0.0, 0.05)};
        int of_zone = 0;
        bool of_north = true;
        double east_m = 0.0;
        double north_m = 0.0;
        GeographicLib::UTMUPS::Forward(place.lat_deg, place.lon_deg, of_zone, of_north, east_m, north_m,
                                       zone);
        if (zone != 0 && of_north != north) north_m += north ? -1e7 : 1e7;
        const EastNorth ours = plane.to_plane(place);
        CHECK(ours.east_m == Approx(east_m).margin(1e-3).epsilon(0));
        CHECK(ours.north_m == Approx(north_m).margin(1e-3).epsilon(0));
        const LatLon back = plane.to_lat_lon(ours);
        CHECK(back.lat_deg == Approx(place.lat_deg).margin(1e-8).epsilon(0));
        CHECK(back.lon_deg == Approx(place.lon_deg).margin(3e-8).epsilon(0));
    }
}

}  // namespace

TEST_CASE("Places on a UTM plane are GeographicLib's to a millimetre, and come back") {
    check_near({52.6, 2.9}, 31, true);
    check_near({-43.5, 172.1}, 59, false);
    check_near({0.02, -78.4}, 17, true);  // on both sides of the equator
    check_near({59.9, 5.99}, 32, true);   // the wide zone of Norway
}

TEST_CASE("A UTM plane knows its number, its name and how it is turned and stretched") {
    UtmPlane here({52.6, 2.9});
    CHECK(here.epsg() == 32631);
    CHECK(here.name() == "WGS 84 / UTM zone 31N");
    // On the central meridian lengths are 0.9996 of what they are, and grid north is true north.
    CHECK(UtmPlane({52.6, 3.0}).area_factor() == Approx(0.9996 * 0.9996).epsilon(1e-9));
    CHECK(UtmPlane({52.6, 3.0}).convergence_deg() == Approx(0.0).margin(1e-9));
    CHECK(here.convergence_deg() == Approx(-0.1 * std::sin(52.6 * 3.14159265 / 180.0)).epsilon(1e-3));
    CHECK(UtmPlane({-43.5, 172.1}).epsg() == 32759);
    CHECK(UtmPlane({86.0, 10.0}).epsg() == 32661);
    const auto other = UtmPlane::of_epsg(32630, {52.6, 0.1});
    REQUIRE(other);
    CHECK(other->zone() == 30);
    CHECK_FALSE(UtmPlane::of_epsg(4326, {52.6, 0.1}));
}
