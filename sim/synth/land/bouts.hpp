// How a field is worked: parallel bouts between the headlands.
#pragma once

#include <vector>

#include "synth/land/path.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

struct Bout {
    EastNorth from;
    EastNorth to;
    double cut_m = 0.0;  // how wide it is: the last one of a field takes what is left
    bool taken = false;
};

// Bouts of the given width along the field's heading, side by side across it; the last is as wide as what is
// left. Each ends `headland_m` before the boundary and before an obstacle; one shorter than 20 m is left out.
std::vector<Bout> bouts_of(const ScenarioField& field, double width_m);

// Where a machine is that far along a bout, at most at its end.
Pose pose_along(const Bout& bout, double done_m);

}  // namespace podrate::sim
