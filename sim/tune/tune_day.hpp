// A day that alarms are tuned on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "parameters/parameter_set.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

struct TuneDay {
    std::filesystem::path input;  // whole
    Day day;
    std::vector<Episode> marked;  // of its episodes.csv; what was wrong there stands in day.problems
    std::string stamp;            // changes where anything does that its tallies rest on
};

// Each folder once. `base`, where there is one, is laid over each machine's own parameters. What could not be
// used, and why, goes into `notes`.
std::vector<TuneDay> read_tune_days(const std::vector<std::string>& folders,
                                    const std::optional<ParameterSet>& base, std::vector<std::string>& notes);

}  // namespace podrate::sim
