#include "synth/land/path.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr int kPieces = 200;

EastNorth ahead(const Pose& pose, double distance_m) {
    const auto direction = math::sin_cos(math::deg_to_rad(pose.heading_deg));
    return {pose.place.east_m + distance_m * direction.sin, pose.place.north_m + distance_m * direction.cos};
}

}  // namespace

double distance_between_m(EastNorth a, EastNorth b) {
    const double east = b.east_m - a.east_m;
    const double north = b.north_m - a.north_m;
    return std::sqrt(east * east + north * north);
}

double heading_from_to_deg(EastNorth a, EastNorth b) {
    const double length_m = distance_between_m(a, b);
    if (length_m <= 0.0) return 0.0;
    const double east = (b.east_m - a.east_m) / length_m;
    const double north = (b.north_m - a.north_m) / length_m;
    // Newton on our own sine, from the nearest of the four winds: cubic, so four rounds reach the last bit.
    // libm's atan2 is not the same everywhere.
    const bool sideways = std::abs(east) > std::abs(north);
    double angle = math::deg_to_rad(sideways ? (east > 0.0 ? 90.0 : 270.0) : (north > 0.0 ? 0.0 : 180.0));
    for (int round = 0; round < 4; ++round) {
        const auto guess = math::sin_cos(angle);
        angle += east * guess.cos - north * guess.sin;
    }
    const double degrees = angle * 57.29577951308232;
    return degrees < 0.0 ? degrees + 360.0 : degrees;
}

Path::Path(const Pose& from, const Pose& to, double reach_m) {
    const EastNorth a = from.place;
    const EastNorth b = ahead(from, reach_m);
    const EastNorth c = ahead(to, -reach_m);
    const EastNorth d = to.place;
    for (int i = 0; i <= kPieces; ++i) {
        const double t = static_cast<double>(i) / kPieces;
        const double s = 1.0 - t;
        const double wa = s * s * s;
        const double wb = 3.0 * s * s * t;
        const double wc = 3.0 * s * t * t;
        const double wd = t * t * t;
        points_.push_back({wa * a.east_m + wb * b.east_m + wc * c.east_m + wd * d.east_m,
                           wa * a.north_m + wb * b.north_m + wc * c.north_m + wd * d.north_m});
        const double step_m = i == 0 ? 0.0 : distance_between_m(points_[points_.size() - 2], points_.back());
        walked_m_.push_back(i == 0 ? 0.0 : walked_m_.back() + step_m);
    }
}

void Path::append(const Path& next) {
    const double so_far_m = length_m();
    for (std::size_t i = 1; i < next.points_.size(); ++i) {
        points_.push_back(next.points_[i]);
        walked_m_.push_back(so_far_m + next.walked_m_[i]);
    }
}

Pose Path::at(double distance_m) const {
    const auto above = std::upper_bound(walked_m_.begin(), walked_m_.end(), distance_m);
    const auto last = static_cast<std::ptrdiff_t>(walked_m_.size()) - 1;
    const auto i = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(above - walked_m_.begin(), 1, last));
    const double piece_m = walked_m_[i] - walked_m_[i - 1];
    const double share =
        piece_m > 0.0 ? std::clamp((distance_m - walked_m_[i - 1]) / piece_m, 0.0, 1.0) : 0.0;
    const EastNorth a = points_[i - 1];
    const EastNorth b = points_[i];
    return {{a.east_m + share * (b.east_m - a.east_m), a.north_m + share * (b.north_m - a.north_m)},
            heading_from_to_deg(a, b)};
}

}  // namespace podrate::sim
