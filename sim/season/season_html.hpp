// The season as a page of its own, to read and print.
#pragma once

#include <string>

#include "season/season.hpp"
#include "season/season_sums.hpp"

namespace podrate::sim {

std::string season_html(const Season& season, const SeasonSums& sums);

}  // namespace podrate::sim
