// One day of a season: worked through, or taken over from an earlier run.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "season/day_figures.hpp"

namespace podrate::sim {

struct DayJob {
    std::string folder;            // as it was given
    std::filesystem::path input;   // canonical
    std::filesystem::path output;  // of this day alone, within the season's folder
};

// The folder's name and a hash of its whole path: days of one name don't meet.
std::string day_key(const std::filesystem::path& input);

struct WorkedDay {
    DayFigures figures;
    bool taken_over = false;  // done before, and nothing has changed since
};

// Leaves summary.json, as `replay` writes it, and figures.json in the job's output; the latter last, with a
// stamp of what it was made from: files with their sizes and times, the program, the loss taken on. A day
// that can't be used comes back as broken with its reason; nothing is thrown but what is no std::exception.
// `after`: null, or the output of the day before, whose carry.json is taken on; it may have none yet.
WorkedDay work_day(const DayJob& job, bool anew, const std::filesystem::path* after,
                   const std::function<void(double)>& progress);

}  // namespace podrate::sim
