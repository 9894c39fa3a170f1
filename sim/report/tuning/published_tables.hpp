// What a sweep found beside what the standards publish.
#pragma once

#include <string>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// All alarms against the published targets.
std::string burden_table_html(const TuningChoice& choice);

// Deadbands and delays beside the published points to start from.
std::string starting_points_html(const TuneTable& table, const TuningChoice& choice);

}  // namespace podrate::sim
