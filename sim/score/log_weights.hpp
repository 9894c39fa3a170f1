// The weights of a machine's log, brought to the seconds of the truth.
#pragma once

#include <filesystem>
#include <vector>

#include "day/day.hpp"

namespace podrate::sim {

// Both second by second, kg; NaN where the log has none.
struct LogWeights {
    std::vector<double> reading_kg;  // the last reading within the second before, as read
    std::vector<double> mean_kg;     // mean of the second around it, tilt and gravity taken off
};

// `first_unix_s`: time of the truth's first second.
// Seconds in which the truth knows the scale to be stuck, dropped out or torn off have no mean.
LogWeights log_weights(const Machine& machine, const std::filesystem::path& day_folder, double first_unix_s,
                       std::size_t seconds);

}  // namespace podrate::sim
