// What is known of each machine's loss, from day to day of a season.
#pragma once

#include <string>

namespace podrate::sim {

// Both are texts of a carry.json, the first may be empty: the later day's machines, and those of before that
// were not out on it.
std::string merged_carry(const std::string& before, const std::string& later);

}  // namespace podrate::sim
