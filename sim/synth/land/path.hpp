// A smooth way from one place and heading to another: turns and drives.
#pragma once

#include <vector>

#include "geo/place.hpp"

namespace podrate::sim {

struct Pose {
    EastNorth place;
    double heading_deg = 0.0;
};

// Cubic Bezier curve, walked by distance.
class Path {
  public:
    Path() = default;
    // `reach_m`: how far the curve keeps to its headings at the ends.
    Path(const Pose& from, const Pose& to, double reach_m);
    // Goes on along a path that begins where this one ends.
    void append(const Path& next);
    [[nodiscard]] double length_m() const { return walked_m_.empty() ? 0.0 : walked_m_.back(); }
    [[nodiscard]] Pose at(double distance_m) const;

  private:
    std::vector<EastNorth> points_;
    std::vector<double> walked_m_;
};

double distance_between_m(EastNorth a, EastNorth b);
// Clockwise from north, 0 to 360.
double heading_from_to_deg(EastNorth a, EastNorth b);

}  // namespace podrate::sim
