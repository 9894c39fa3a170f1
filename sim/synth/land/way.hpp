// From one bout to the next without driving through anything.
#pragma once

#include <vector>

#include "synth/land/bouts.hpp"
#include "synth/land/path.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// The turn with the widest reach up to `reach_m` that keeps half a width clear of all obstacles, straight or
// by one side of one; where none does, the one that comes least far in.
Path clear_way(const Pose& from, const Pose& to, double reach_m, double half_width_m,
               const std::vector<ScenarioObstacle>& obstacles);

// The same to the start of a bout; the wider the farther.
Path way_to_bout(const Pose& from, const Bout& bout, double half_width_m,
                 const std::vector<ScenarioObstacle>& obstacles);

}  // namespace podrate::sim
