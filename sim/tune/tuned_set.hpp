// A setting of a sweep as a parameter set, for the cab.
#pragma once

#include "parameters/parameter_set.hpp"
#include "tune/tally.hpp"

namespace podrate::sim {

// What the set `base` names, where there is one, and over it what the setting changes of what was before the
// sweep. The base's history goes on in the new set's.
ParameterSet tuned_set(const TuneTable& table, std::size_t setting, const std::optional<ParameterSet>& base,
                       const SetEntry& made);

}  // namespace podrate::sim
