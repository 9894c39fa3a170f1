// Parameter sets on the disk: kept so that a power cut or a damaged file costs none that was good.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "parameters/parameter_set.hpp"

namespace podrate::sim {

struct KeptSet {
    ParameterSet set;
    std::string mark;  // of its content
};

// Throws RefusedInput where it can't be read or is not good, see parse_parameter_set().
KeptSet read_parameter_set(const std::filesystem::path& path);

// Whole or not at all. A good set that stands there already is kept as FILE.bak, anything else there as
// FILE.refused. Throws RefusedInput where it can't be written.
void keep_parameter_set(const std::filesystem::path& path, const ParameterSet& set);

// Writes the checksum anew for what was changed by hand, once everything in it is found good. Throws
// RefusedInput.
void seal_parameter_file(const std::filesystem::path& path);

// What a set may be called: as a machine's id, up to kMostSetName letters, digits, _ and -.
inline constexpr std::size_t kMostSetName = 40;
bool is_set_name(const std::string& name);
std::filesystem::path parameter_path(const std::filesystem::path& folder, const std::string& name);

// The .toml files of a folder, by name; none where there is no such folder.
std::vector<std::filesystem::path> parameter_files(const std::filesystem::path& folder);

}  // namespace podrate::sim
