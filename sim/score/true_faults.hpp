// The faults that a synthetic day was given.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "synth/scenario/fault.hpp"

namespace podrate::sim {

struct TrueFault {
    FaultKind kind = FaultKind::weight_stuck;
    double start_unix_s = 0.0;
    double end_unix_s = 0.0;
    double size = 0.0;
};

// Those of that machine in truth/faults.csv, in its order; none where a day has no such file. Throws
// RefusedInput where a kind is not known.
std::vector<TrueFault> read_true_faults(const std::filesystem::path& day_folder, const std::string& machine);

}  // namespace podrate::sim
