// A file that is on the disk, whole, when the call returns.
#pragma once

#include <filesystem>
#include <string_view>

namespace podrate::sim {

// Written beside the target, synced, renamed, and the folder synced: after a power cut either the old or the
// new one stands there. Throws RefusedInput where that can't be done.
void write_lasting(const std::filesystem::path& path, std::string_view text);

}  // namespace podrate::sim
