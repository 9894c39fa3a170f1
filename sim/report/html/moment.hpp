// Moments of other days than the logs'.
#pragma once

#include <string>

namespace podrate::sim {

// "28 Jun 14:00" in the time zone, to the nearest full hour or whatever step is given. "earlier" and "later"
// for -infinity and infinity.
std::string moment_text(double unix_s, const std::string& time_zone, double step_s = 3600.0);

// "28 Jun", the local date.
std::string date_text(double unix_s, const std::string& time_zone);

}  // namespace podrate::sim
