// Drawings of a season.
#pragma once

#include <string>

#include "season/season.hpp"
#include "season/season_sums.hpp"

namespace podrate::sim {

// Both have a place for each day in the list, and show those that count.
std::string tonnes_by_day_svg(const Season& season, const SeasonSums& sums);
// With its 90 % range.
std::string loss_by_day_svg(const Season& season, const SeasonSums& sums);

}  // namespace podrate::sim
