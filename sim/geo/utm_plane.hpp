// The plane of one UTM zone, or UPS near the poles: what maps are drawn on.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "geo/place.hpp"

namespace podrate::sim {

// A map from one pair of coordinates to another that is nearly linear, taken through nine points of each
// square of `side` on demand and quadratic between them.
class QuadraticSheet {
  public:
    using Pair = std::array<double, 2>;
    using Exact = Pair (*)(double a, double b, int zone, bool north);
    QuadraticSheet(double side, Exact exact, int zone, bool north)
        : side_(side), exact_(exact), zone_(zone), north_(north) {}
    Pair at(double a, double b);

  private:
    using Nodes = std::array<Pair, 9>;
    double side_;
    Exact exact_;
    int zone_;
    bool north_;
    std::map<std::pair<long, long>, Nodes> squares_;
    std::pair<long, long> newest_key_{};
    Nodes newest_{};  // a copy, so that a copied sheet does not lean on another's
    bool any_ = false;
};

// All places of a day go on one zone's plane, that of `near`. Within a few hundred km of it right to a
// millimetre, which GeographicLib's exact figures are held to every kilometre.
class UtmPlane {
  public:
    explicit UtmPlane(LatLon near);
    // Of a plane told by its number; not of UTM or UPS on WGS 84: nothing.
    static std::optional<UtmPlane> of_epsg(int epsg, LatLon near);
    EastNorth to_plane(LatLon place);
    LatLon to_lat_lon(EastNorth place);

    // Area on the plane over area on the ellipsoid, at `near`.
    [[nodiscard]] double area_factor() const { return scale_ * scale_; }
    // North of the grid less true north there, degrees, clockwise.
    [[nodiscard]] double convergence_deg() const { return convergence_deg_; }
    [[nodiscard]] int zone() const { return zone_; }  // 0: UPS
    [[nodiscard]] bool north() const { return north_; }
    [[nodiscard]] int epsg() const;
    // "WGS 84 / UTM zone 31N"
    [[nodiscard]] std::string name() const;

  private:
    UtmPlane(LatLon near, int zone, bool north);
    int zone_ = 0;
    bool north_ = true;
    double scale_ = 1.0;
    double convergence_deg_ = 0.0;
    QuadraticSheet forth_;
    QuadraticSheet back_;
};

}  // namespace podrate::sim
