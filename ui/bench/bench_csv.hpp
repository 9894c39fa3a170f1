// What the bench counts as a table.
#pragma once

#include <filesystem>
#include <string>

#include "bench/bench.hpp"

namespace podrate::ui {

// The table by day of `podrate tune` (tune/tuning_csv): setting 0 is before, 1 after, with the values of all
// parameters that differ, a row for each alarm and one for all that the driver was shown, of each machine
// that is counted. Only where the bench's book has counted.
std::string bench_csv(const Bench& bench);

// "podrate_2025-06-27_1500-1809_viner_2_bench.csv" in that folder, as the day's view names what it saves.
std::filesystem::path free_name(const std::filesystem::path& folder, const Bench& bench,
                                const std::string& ending);

}  // namespace podrate::ui
