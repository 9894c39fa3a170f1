// A sweep's conclusion as files.
#pragma once

#include <filesystem>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// Into `folder`, which is made where it is missing: tuning.html; recommended.toml, a parameter set of what
// changes (over choice.base, where there is one), with the recommendation as its note; recommended.bin,
// choice.present with that set laid over it as a block for a controller; where machines differ in what the
// set leaves, recommended_ID.bin for each instead. Each appears whole or not at all.
// Throws RefusedInput where that can't be done.
void write_tuning_report(const TuneTable& table, const TuningChoice& choice,
                         const std::filesystem::path& folder);

// What goes into recommended.toml.
ParameterSet recommended_set(const TuneTable& table, const TuningChoice& choice);

}  // namespace podrate::sim
