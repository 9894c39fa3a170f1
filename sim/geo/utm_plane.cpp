#include "geo/utm_plane.hpp"

#include <GeographicLib/UTMUPS.hpp>
#include <cmath>

namespace podrate::sim {
namespace {

using GeographicLib::UTMUPS;

constexpr double kSideDeg = 0.01;
constexpr double kSideM = 1000.0;

QuadraticSheet::Pair forward(double lat_deg, double lon_deg, int zone, bool north) {
    QuadraticSheet::Pair plane{};
    int of_zone = 0;
    bool of_north = true;
    double turned_deg = 0.0;
    double scale = 1.0;
    UTMUPS::Forward(lat_deg, lon_deg, of_zone, of_north, plane[0], plane[1], turned_deg, scale, zone);
    // One side of the equator for all.
    if (zone != UTMUPS::UPS && of_north != north) plane[1] += (north ? -1.0 : 1.0) * UTMUPS::UTMShift();
    return plane;
}

QuadraticSheet::Pair reverse(double east_m, double north_m, int zone, bool north) {
    QuadraticSheet::Pair place{};
    UTMUPS::Reverse(zone, north, east_m, north_m, place[0], place[1]);
    return place;
}

// Lagrange's weights of the three nodes at 0, 1/2 and 1.
std::array<double, 3> weights(double x) {
    return {(2.0 * x - 1.0) * (x - 1.0), 4.0 * x * (1.0 - x), x * (2.0 * x - 1.0)};
}

}  // namespace

QuadraticSheet::Pair QuadraticSheet::at(double a, double b) {
    const std::pair key{static_cast<long>(std::floor(a / side_)), static_cast<long>(std::floor(b / side_))};
    const double a0 = static_cast<double>(key.first) * side_;
    const double b0 = static_cast<double>(key.second) * side_;
    if (!any_ || key != newest_key_) {
        const auto [square, fresh] = squares_.try_emplace(key);
        if (fresh) {
            for (std::size_t i = 0; i < square->second.size(); ++i)
                square->second[i] = exact_(a0 + 0.5 * static_cast<double>(i / 3) * side_,
                                           b0 + 0.5 * static_cast<double>(i % 3) * side_, zone_, north_);
        }
        newest_ = square->second;
        newest_key_ = key;
        any_ = true;
    }
    const auto of_a = weights((a - a0) / side_);
    const auto of_b = weights((b - b0) / side_);
    Pair sum{};
    for (std::size_t i = 0; i < newest_.size(); ++i) {
        const double weight = of_a[i / 3] * of_b[i % 3];
        sum[0] += weight * newest_[i][0];
        sum[1] += weight * newest_[i][1];
    }
    return sum;
}

UtmPlane::UtmPlane(LatLon near)
    : UtmPlane(near, UTMUPS::StandardZone(near.lat_deg, near.lon_deg), near.lat_deg >= 0.0) {}

std::optional<UtmPlane> UtmPlane::of_epsg(int epsg, LatLon near) {
    int zone = UTMUPS::INVALID;
    bool north = true;
    UTMUPS::DecodeEPSG(epsg, zone, north);
    if (zone == UTMUPS::INVALID) return std::nullopt;
    return UtmPlane(near, zone, north);
}

UtmPlane::UtmPlane(LatLon near, int zone, bool north)
    : zone_(zone),
      north_(north),
      forth_(kSideDeg, forward, zone_, north_),
      back_(kSideM, reverse, zone_, north_) {
    int of_zone = 0;
    bool of_north = true;
    EastNorth at;
    UTMUPS::Forward(near.lat_deg, near.lon_deg, of_zone, of_north, at.east_m, at.north_m, convergence_deg_,
                    scale_, zone_);
}

EastNorth UtmPlane::to_plane(LatLon place) {
    const auto plane = forth_.at(place.lat_deg, place.lon_deg);
    return {plane[0], plane[1]};
}

LatLon UtmPlane::to_lat_lon(EastNorth place) {
    const auto globe = back_.at(place.east_m, place.north_m);
    return {globe[0], globe[1]};
}

int UtmPlane::epsg() const {
    return UTMUPS::EncodeEPSG(zone_, north_);
}

std::string UtmPlane::name() const {
    if (zone_ == UTMUPS::UPS) return std::string("WGS 84 / UPS ") + (north_ ? "North (E,N)" : "South (E,N)");
    return "WGS 84 / UTM zone " + std::to_string(zone_) + (north_ ? "N" : "S");
}

}  // namespace podrate::sim
