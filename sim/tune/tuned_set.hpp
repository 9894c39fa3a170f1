// A setting of a sweep as a parameter set, for the cab.
#pragma once

#include <optional>

#include "parameters/parameter_file.hpp"
#include "tune/tally.hpp"

namespace podrate::sim {

// What the set `base` names, where there is one, and over it what was swept. Its history goes on in the new
// set's. A parameter that the setting leaves as each machine has it is not named.
ParameterSet tuned_set(const TuneTable& table, std::size_t setting, const std::optional<KeptSet>& base,
                       const SetEntry& made);

}  // namespace podrate::sim
