// Holds a day's map against the truth, cell by cell.
#pragma once

#include <filesystem>
#include <optional>

#include "day/day.hpp"

namespace podrate::sim {

// Over cells in which the machines truly spent kLeastCellS or more at work.
struct MapScore {
    double cell_m = 0.0;
    long cells = 0;
    double median_error_pct = 0.0;  // of a cell's yield, without sign
    double ninetieth_error_pct = 0.0;
    double bias_pct = 0.0;                     // mean, with sign
    double inside_90_pct = 0.0;                // of the cells, truth within the range told
    double mean_sd_pct = 0.0;                  // told
    double loss_median_error_kg_per_ha = 0.0;  // of what was left on the ground
    double true_loss_kg_per_ha = 0.0;          // its mean
};
inline constexpr double kLeastCellS = 10.0;

// From map_cells.csv in `results`. Nothing where that is missing, where the truth does not tell where its
// plane lies, or no cell qualifies. Throws RefusedInput where a file is damaged.
std::optional<MapScore> score_map(const Day& day, const std::filesystem::path& results,
                                  const std::filesystem::path& day_folder);

}  // namespace podrate::sim
