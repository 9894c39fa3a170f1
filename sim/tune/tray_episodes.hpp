// What tray checks say that the alarm of high loss had to tell.
#pragma once

#include "replay/machine_replay.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

// A tray speaks for half a minute about the moment when the machine passed it: due where what lay in it, as
// a share of that and of what reached the hopper there, is over the limit. Of other times nothing is known.
// A tray where no yield is known of the swath says nothing. `replayed`: with the machine's own parameters.
AlarmTruth tray_episodes(const Machine& machine, const MachineResult& replayed);

}  // namespace podrate::sim
