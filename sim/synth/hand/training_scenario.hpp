// The invented field and machine on which drivers learn.
#pragma once

#include <cstdint>

#include "podrate/parameters.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// One field of even crop with a few lodged patches, one viner with four cells logged apart and a loss sensor,
// no trailer to wait for. Width, hopper and wanted rate of the machine are those of the parameters.
Scenario training_scenario(std::uint64_t seed, const Parameters& parameters);

// What a replay of a scenario's day takes as parameters of that machine: those given, where day.toml does not
// tell others.
Parameters told_parameters(const ScenarioMachine& machine, const Parameters& given);

}  // namespace podrate::sim
