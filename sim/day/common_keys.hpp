// Keys that day.toml and a scenario have in common.
#pragma once

#include <string>

#include "day/toml_access.hpp"

namespace podrate::sim {

// Up to 40 letters, digits, _ and -: safe as part of a file's name.
bool is_file_name(const std::string& id);

// The id of a [[machine]]. Throws RefusedInput where it can't name a file.
std::string read_machine_id(const TomlView& machine);

// time_zone, or Etc/UTC. Throws RefusedInput where the tz database does not know it.
std::string read_time_zone(const TomlView& top);

}  // namespace podrate::sim
