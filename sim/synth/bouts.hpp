// How a field is worked: parallel bouts between the headlands.
#pragma once

#include <vector>

#include "synth/scenario.hpp"

namespace podrate::sim {

struct Bout {
    EastNorth from;
    EastNorth to;
    bool taken = false;
};

// Bouts of the given width along the field's heading, side by side across it. Each ends `headland_m` before
// the boundary; a bout shorter than 20 m is left out.
std::vector<Bout> bouts_of(const ScenarioField& field, double width_m);

}  // namespace podrate::sim
