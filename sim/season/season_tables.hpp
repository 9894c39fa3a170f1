// A season for other programs: tables and JSON.
#pragma once

#include <string>

#include "season/season.hpp"
#include "season/season_sums.hpp"

namespace podrate::sim {

// A row for each day, machine and field; days that do not count have none. RFC 4180, UTF-8; units stand in
// the names; an empty cell is not known.
std::string season_csv(const Season& season);

// A row for each day, with its use and, where it is not whole, why.
std::string season_days_csv(const Season& season, const SeasonSums& sums);

// A row for each field.
std::string season_fields_csv(const SeasonSums& sums);

std::string season_json(const Season& season, const SeasonSums& sums);

}  // namespace podrate::sim
