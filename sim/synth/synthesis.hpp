// Runs a scenario and writes its day folder, truth included.
#pragma once

#include <filesystem>
#include <functional>

#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// Same scenario, same bytes.
void synthesise(const Scenario& scenario, const std::filesystem::path& out,
                const std::function<void(double)>& progress);

}  // namespace podrate::sim
