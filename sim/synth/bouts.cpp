#include "synth/bouts.hpp"

#include <algorithm>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr double kShortestM = 20.0;

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
    for (double across = low + field.headland_m + width_m / 2; across < high - field.headland_m;
         across += width_m) {
        const std::vector<double> ends = crossings(field, frame, across);
        for (std::size_t i = 0; i + 1 < ends.size(); i += 2) {
            const double from = ends[i] + field.headland_m;
            const double to = ends[i + 1] - field.headland_m;
            if (to - from < kShortestM) continue;
            bouts.push_back({frame.place(from, across), frame.place(to, across), false});
        }
    }
    return bouts;
}

}  // namespace podrate::sim
