// What is known of a machine's loss, and from what, in plain words.
#pragma once

#include <string>

#include "replay/machine_replay.hpp"

namespace podrate::sim {

// One to three sentences; empty where the log could not be used.
std::string loss_statement(const MachineResult& machine);

}  // namespace podrate::sim
