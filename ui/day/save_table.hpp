// The charts that are seen as a table of figures, and names for what is saved.
#pragma once

#include <filesystem>
#include <string>

#include "day/day_desk.hpp"

namespace podrate::ui {

// CSV (RFC 4180): a row for each moment of a machine that is shown, in order of machine and time, with the
// columns of the charts in SI as they are named in a day's files: unix_s,machine,load_rate_kgps,
// load_rate_low_kgps,load_rate_high_kgps,... An empty cell: nothing new was told then.
std::string table_of(const DayDesk& desk);

// "podrate_2025-06-27_1500-1809_WHAT.csv" in that folder: the stretch that is shown, in the day's time zone;
// with
// "_2", "_3", ... before the dot where that is taken.
std::filesystem::path free_name(const std::filesystem::path& folder, const DaySeries& series,
                                const TimeRange& shown, const std::string& what, const std::string& ending);

// "podrate_2025-06-27_1500-1809_viner_2.csv" in that folder; with "_2", "_3", ... before the dot where that
// is taken.
std::filesystem::path free_name(const std::filesystem::path& folder, const DayDesk& desk,
                                const std::string& ending);

}  // namespace podrate::ui
