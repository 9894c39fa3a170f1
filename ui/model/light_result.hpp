// A replay's result without what no view asks for again.
#pragma once

#include "replay/machine_replay.hpp"

namespace podrate::ui {

// Takes away what maps are made of: most of what a long day takes.
void drop_track(sim::MachineResult& machine);

}  // namespace podrate::ui
