// Moments of other days than the logs'.
#pragma once

#include <string>

namespace podrate::sim {

// "28 Jun 14:00", to the nearest full hour; in the time zone. "earlier" and "later" for -infinity and
// infinity.
std::string moment_text(double unix_s, const std::string& time_zone);

// "28 Jun", the local date.
std::string date_text(double unix_s, const std::string& time_zone);

}  // namespace podrate::sim
