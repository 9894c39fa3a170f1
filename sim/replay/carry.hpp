// What one day's replay leaves to the next: carry.json in a results folder.
#pragma once

#include <filesystem>
#include <string>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Each usable machine's LossMemory.
std::string carry_json(const DayResult& result);

// Gives each machine of `day` what `results`/carry.json holds for its id; those without stay as they are.
// Throws RefusedInput where the file is missing or damaged.
void take_carried(const std::filesystem::path& results, Day& day);

}  // namespace podrate::sim
