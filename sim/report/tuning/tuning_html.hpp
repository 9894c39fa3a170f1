// The page that tells what a sweep of alarm limits comes to.
#pragma once

#include <string>

#include "tune/tuning_choice.hpp"

namespace podrate::sim {

// One page that needs nothing else. The same input gives the same bytes.
std::string tuning_html(const TuneTable& table, const TuningChoice& choice);

}  // namespace podrate::sim
