// The loss of a machine's run in the figures that reports show.
#pragma once

#include <optional>

#include "replay/machine_replay.hpp"

namespace podrate::sim {

// A figure with its 90 % range.
struct RangedFigure {
    double value = 0.0;
    double low = 0.0;
    double high = 0.0;
};

// Shares of the peas standing, over the run; where nothing was collected, what is thought beforehand.
LossShares loss_parts(const MachineResult& machine);

// What was lost of what the machine took: nothing where no area was driven in work, since then nobody can
// tell.
std::optional<RangedFigure> lost_kg(const MachineResult& machine);
std::optional<RangedFigure> ground_kg_per_ha(const MachineResult& machine);

}  // namespace podrate::sim
