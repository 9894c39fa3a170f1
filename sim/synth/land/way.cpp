#include "synth/land/way.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr double kTurnReachM = 14.0;     // common practice, no source
constexpr double kLookM = 1.0;           // along the way, between two looks
constexpr double kPassingM = 4.0;        // kept from an obstacle when passing it
constexpr double kShortestReachM = 1.0;  // reach

// How far the way comes into the obstacles, kept half a width apart; 0 or less where it is clear.
double into_m(const Path& way, double half_width_m, const std::vector<ScenarioObstacle>& obstacles) {
    double deepest_m = 0.0;
    for (double along_m = 0.0; along_m <= way.length_m(); along_m += kLookM) {
        const EastNorth place = way.at(along_m).place;
        for (const ScenarioObstacle& obstacle : obstacles) {
            deepest_m = std::max(
                deepest_m, obstacle.radius_m + half_width_m - distance_between_m(place, obstacle.place));
        }
    }
    return deepest_m;
}

// Beside an obstacle, heading along the line from `from` to `to`: left of it for side -1, right for 1.
Pose beside(const ScenarioObstacle& obstacle, EastNorth from, EastNorth to, double side,
            double half_width_m) {
    const double heading_deg = heading_from_to_deg(from, to);
    const auto ahead = math::sin_cos(math::deg_to_rad(heading_deg));
    const double off_m = side * (obstacle.radius_m + half_width_m + kPassingM);
    return {{obstacle.place.east_m + off_m * ahead.cos, obstacle.place.north_m - off_m * ahead.sin},
            heading_deg};
}

}  // namespace

Path clear_way(const Pose& from, const Pose& to, double reach_m, double half_width_m,
               const std::vector<ScenarioObstacle>& obstacles) {
    Path best(from, to, reach_m);
    double best_into_m = into_m(best, half_width_m, obstacles);
    const auto consider = [&](const Path& way) {
        const double way_into_m = into_m(way, half_width_m, obstacles);
        if (way_into_m >= best_into_m) return;
        best = way;
        best_into_m = way_into_m;
    };
    for (double reach = reach_m; best_into_m > 0.0 && reach > kShortestReachM; reach *= 0.5) {
        consider(Path(from, to, reach));
        for (const ScenarioObstacle& obstacle : obstacles) {
            for (const double side : {-1.0, 1.0}) {
                if (best_into_m <= 0.0) return best;
                const Pose via = beside(obstacle, from.place, to.place, side, half_width_m);
                Path way(from, via, reach);
                way.append(Path(via, to, reach));
                consider(way);
            }
        }
    }
    return best;
}

Path way_to_bout(const Pose& from, const Bout& bout, double half_width_m,
                 const std::vector<ScenarioObstacle>& obstacles) {
    const Pose start = {bout.from, heading_from_to_deg(bout.from, bout.to)};
    const double far_m = distance_between_m(from.place, bout.from);
    return clear_way(from, start, std::max(kTurnReachM, 0.3 * far_m), half_width_m, obstacles);
}

}  // namespace podrate::sim
