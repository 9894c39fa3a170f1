// Many days worked through.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "season/day_figures.hpp"

namespace podrate::sim {

struct SeasonOptions {
    std::vector<std::string> folders;  // of days
    std::filesystem::path out;
    bool anew = false;  // true: nothing of an earlier run is taken over
    bool carry =
        false;  // true: days in order of their dates, each with what the one before taught of the loss
    unsigned at_once = 0;                  // days side by side; 0: as many as there are processors
    std::function<void(double)> progress;  // share of the days, 0 to 1; called one at a time
};

struct Season {
    std::vector<DayFigures> days;    // by date, by time, by folder; without a date last
    std::vector<std::string> notes;  // folders given twice, days that overlap
    std::size_t taken_over = 0;      // days that an earlier run had done

    [[nodiscard]] bool any_counts() const;
    [[nodiscard]] bool all_whole() const;
};

// The result does not depend on how many run at once, on the order of the folders, or on what an earlier run
// was stopped at. Memory: of the days side by side, and a few kB for each day of the season.
Season work_season(const SeasonOptions& options);

}  // namespace podrate::sim
