// What is known of what a machine's alarms had to tell on a day.
#pragma once

#include <filesystem>
#include <functional>

#include "replay/machine_replay.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

// From the day's truth, or else from trays; what was marked by hand goes over it (lay_marked_over()).
// `replayed`: the machine's replay with its own parameters, asked for where trays are all that tells. Throws
// RefusedInput where the truth is not whole.
MachineTruth unmarked_truth(const std::filesystem::path& day_folder, const Machine& machine,
                            const std::function<MachineResult()>& replayed);

}  // namespace podrate::sim
