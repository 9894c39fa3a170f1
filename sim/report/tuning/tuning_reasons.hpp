// Why a setting is recommended, and how far to trust it, in plain words. A sentence each.
#pragma once

#include <string>
#include <vector>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// Why this setting; where none meets what is asked, why none does.
std::vector<std::string> reasons(const TuneTable& table, const TuningChoice& choice);

// On how much it rests, and whether its gains are seen on what was left out.
std::vector<std::string> how_sure(const TuneTable& table, const TuningChoice& choice);

// Too few episodes, gains that do not carry over, and the like; none where there is nothing to warn of.
std::vector<std::string> warnings(const TuneTable& table, const TuningChoice& choice);

}  // namespace podrate::sim
