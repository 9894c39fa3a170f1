// Tells whether a day is as it was when something was made of it.
#pragma once

#include <filesystem>
#include <set>
#include <string>

#include "day/day.hpp"

namespace podrate::sim {

// CRC-32 in 8 hexadecimal digits.
std::string short_hash(const std::string& text);

// A day's folder by its one whole path, however it was given.
std::filesystem::path whole_path(const std::string& folder);

// Name, size and time of change of each file in the folder `input` and in `more`, and of the day's logs,
// which may lie deeper: a line each, in order of their paths.
std::string files_stamp(const std::filesystem::path& input, const Day& day,
                        const std::filesystem::path& more = {});

}  // namespace podrate::sim
