// One run at a time in a folder of results.
#pragma once

#include <filesystem>

#include "live/descriptor.hpp"

namespace podrate::sim {

// Holds the folder, made if need be, as long as what it returns lives; a run that is killed lets go of
// it, too. Throws RefusedInput where another run holds it.
[[nodiscard]] Descriptor hold_folder(const std::filesystem::path& folder);

}  // namespace podrate::sim
