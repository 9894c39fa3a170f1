// A rectangle of the map's plane.
#pragma once

#include <algorithm>
#include <limits>

#include "geo/place.hpp"

namespace podrate::ui {

struct PlaneBox {
    double west_m = std::numeric_limits<double>::infinity();
    double south_m = std::numeric_limits<double>::infinity();
    double east_m = -std::numeric_limits<double>::infinity();
    double north_m = -std::numeric_limits<double>::infinity();

    [[nodiscard]] bool empty() const { return west_m > east_m; }
    [[nodiscard]] double width_m() const { return east_m - west_m; }
    [[nodiscard]] double height_m() const { return north_m - south_m; }
    [[nodiscard]] sim::EastNorth centre() const { return {(west_m + east_m) / 2, (south_m + north_m) / 2}; }

    void take(sim::EastNorth place) {
        west_m = std::min(west_m, place.east_m);
        south_m = std::min(south_m, place.north_m);
        east_m = std::max(east_m, place.east_m);
        north_m = std::max(north_m, place.north_m);
    }
    // From that place to the nearest of the box; 0 inside.
    [[nodiscard]] double away_m(sim::EastNorth place) const {
        return sim::length_of_m(std::max({west_m - place.east_m, place.east_m - east_m, 0.0}),
                                std::max({south_m - place.north_m, place.north_m - north_m, 0.0}));
    }
    bool operator==(const PlaneBox&) const = default;
};

}  // namespace podrate::ui
