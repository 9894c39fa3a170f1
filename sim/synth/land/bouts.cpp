#include "synth/land/bouts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr double kShortestM = 20.0;
constexpr double kClearM = 3.0;          // kept from an obstacle along the bout
constexpr double kNarrowestShare = 0.1;  // of the width: less is left standing

struct Frame {
    double sin;
    double cos;
    // along: in driving direction; across: to its right
    [[nodiscard]] double along(EastNorth p) const { return p.east_m * sin + p.north_m * cos; }
    [[nodiscard]] double across(EastNorth p) const { return p.east_m * cos - p.north_m * sin; }
    [[nodiscard]] EastNorth place(double along_m, double across_m) const {
        return {along_m * sin + across_m * cos, along_m * cos - across_m * sin};
    }
};

// Where the line at `across_m` crosses the boundary, in order along it.
std::vector<double> crossings(const ScenarioField& field, const Frame& frame, double across_m) {
    std::vector<double> found;
    const auto& corners = field.corners;
    for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
        const double a = frame.across(corners[j]);
        const double b = frame.across(corners[i]);
        if ((a > across_m) == (b > across_m)) continue;
        const double share = (across_m - a) / (b - a);
        found.push_back(frame.along(corners[j]) +
                        share * (frame.along(corners[i]) - frame.along(corners[j])));
    }
    std::sort(found.begin(), found.end());
    return found;
}

// What is left of a bout from `from` to `to` along, once the obstacles near its line are driven round.
std::vector<std::pair<double, double>> clear_pieces(const ScenarioField& field, const Frame& frame,
                                                    double across_m, double half_m, double from, double to) {
    std::vector<std::pair<double, double>> pieces = {{from, to}};
    for (const ScenarioObstacle& obstacle : field.obstacles) {
        const double off_m = frame.across(obstacle.place) - across_m;
        const double reach_m = obstacle.radius_m + half_m;
        if (std::abs(off_m) >= reach_m) continue;
        const double centre = frame.along(obstacle.place);
        const double half_gap = std::sqrt(reach_m * reach_m - off_m * off_m) + kClearM;
        std::vector<std::pair<double, double>> left;
        for (const auto& [begin, end] : pieces) {
            if (centre - half_gap > begin) left.emplace_back(begin, std::min(end, centre - half_gap));
            if (centre + half_gap < end) left.emplace_back(std::max(begin, centre + half_gap), end);
        }
        pieces = std::move(left);
    }
    return pieces;
}

}  // namespace

std::vector<Bout> bouts_of(const ScenarioField& field, double width_m) {
    const auto direction = math::sin_cos(math::deg_to_rad(field.bout_heading_deg));
    const Frame frame{direction.sin, direction.cos};
    double low = frame.across(field.corners.front());
    double high = low;
    for (const EastNorth& corner : field.corners) {
        low = std::min(low, frame.across(corner));
        high = std::max(high, frame.across(corner));
    }
    std::vector<Bout> bouts;
    const double last = high - field.headland_m;
    for (double edge = low + field.headland_m; last - edge > kNarrowestShare * width_m; edge += width_m) {
        const double cut_m = std::min(width_m, last - edge);
        const double across = edge + cut_m / 2;
        const std::vector<double> ends = crossings(field, frame, across);
        for (std::size_t i = 0; i + 1 < ends.size(); i += 2) {
            for (const auto& [from, to] :
                 clear_pieces(field, frame, across, cut_m / 2, ends[i] + field.headland_m,
                              ends[i + 1] - field.headland_m)) {
                if (to - from < kShortestM) continue;
                bouts.push_back({frame.place(from, across), frame.place(to, across), cut_m, false});
            }
        }
    }
    return bouts;
}

Pose pose_along(const Bout& bout, double done_m) {
    const double share = std::min(done_m / distance_between_m(bout.from, bout.to), 1.0);
    return {{bout.from.east_m + share * (bout.to.east_m - bout.from.east_m),
             bout.from.north_m + share * (bout.to.north_m - bout.from.north_m)},
            heading_from_to_deg(bout.from, bout.to)};
}

}  // namespace podrate::sim
