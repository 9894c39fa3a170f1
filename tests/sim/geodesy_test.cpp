// Reference: GeographicLib 2.1.2's own tools (GeodSolve, Planimeter, CartConvert), run apart.
#include "geo/geodesy.hpp"

#include <GeographicLib/LocalCartesian.hpp>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "geo/local_frame.hpp"

using namespace podrate::sim;

TEST_CASE("Distances on the ellipsoid agree with the reference") {
    const LatLon origin{52.5, 0.0};
    CHECK(distance_m(origin, {52.501, 0.001}) == Approx(130.361922444).epsilon(1e-10));
    CHECK(distance_m(origin, {52.5, 0.001}) == Approx(67.910233422).epsilon(1e-10));
    CHECK(distance_m(origin, {52.501, 0.0}) == Approx(111.276842411).epsilon(1e-10));
    CHECK(distance_m({52.501, 0.001}, origin) == Approx(130.361922444).epsilon(1e-10));
    CHECK(distance_m(origin, origin) == 0.0);
}

TEST_CASE("Areas on the ellipsoid agree with the reference and have a sign") {
    // Made to be 200 m by 100 m: 20,000.0 m2, perimeter 600 m.
    Ring field{{52.5, 0.0},
               {52.50179731902983, 0.0},
               {52.50179730986758, 0.00147259217179},
               {52.49999999083835, 0.00147253211993}};
    CHECK(std::abs(ring_area_m2(field)) == Approx(20000.0).margin(0.05));
    CHECK(ring_area_m2(field) < 0.0);  // as listed it runs clockwise
    double perimeter_m = 0.0;
    for (std::size_t i = 0; i < field.size(); ++i) {
        perimeter_m += distance_m(field[i], field[(i + 1) % field.size()]);
    }
    CHECK(perimeter_m == Approx(600.0).margin(1e-5));
    std::reverse(field.begin(), field.end());
    CHECK(ring_area_m2(field) == Approx(20000.0).margin(0.05));

    const Ring other{{52.5, 0.0}, {52.5, 0.002}, {52.501, 0.002}, {52.501, 0.0}};
    CHECK(ring_area_m2(other) == Approx(15113.5).margin(0.05));
}

TEST_CASE("The local frame agrees with the tangent plane of the reference") {
    const LocalFrame frame({52.5, 0.0});
    const EastNorth place = frame.to_east_north({52.501, 0.001});
    // The frame is flat and takes its scale at the origin: 2 mm in 130 m is its own approximation.
    CHECK(place.east_m == Approx(67.908692600).margin(0.003));
    CHECK(place.north_m == Approx(111.277312559).margin(0.003));
}

TEST_CASE("Within 3 km of its origin the local frame is right to 1 m") {
    const LatLon origin{52.6, 2.9};
    const LocalFrame frame(origin);
    const GeographicLib::LocalCartesian reference(origin.lat_deg, origin.lon_deg, 0.0);
    for (double east = -2000.0; east <= 2000.0; east += 500.0) {
        for (double north = -2000.0; north <= 2000.0; north += 500.0) {
            const LatLon place = frame.to_lat_lon({east, north});
            double x = 0.0;
            double y = 0.0;
            double z = 0.0;
            reference.Forward(place.lat_deg, place.lon_deg, 0.0, x, y, z);
            INFO(east << " m east, " << north << " m north");
            CHECK(std::hypot(x - east, y - north) < 1.0);
        }
    }
}

TEST_CASE("A distance of 100 m in the local frame is right to 5 cm") {
    const LocalFrame frame({52.6, 2.9});
    for (double east = -2000.0; east <= 2000.0; east += 1000.0) {
        for (double north = -2000.0; north <= 2000.0; north += 1000.0) {
            const LatLon here = frame.to_lat_lon({east, north});
            CHECK(distance_m(here, frame.to_lat_lon({east + 100.0, north})) == Approx(100.0).margin(0.05));
            CHECK(distance_m(here, frame.to_lat_lon({east, north + 100.0})) == Approx(100.0).margin(0.05));
        }
    }
}

TEST_CASE("The local frame comes back to where it went") {
    const LocalFrame frame({-43.5, 172.6});
    const EastNorth there = frame.to_east_north(frame.to_lat_lon({812.5, -1999.0}));
    CHECK(there.east_m == Approx(812.5).margin(1e-6));
    CHECK(there.north_m == Approx(-1999.0).margin(1e-6));
}
