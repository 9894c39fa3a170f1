// Calendar dates as counts of days.
#pragma once

#include <optional>
#include <string>

namespace podrate::sim {

// Days since 1970-01-01 of "YYYY-MM-DD" (Gregorian, years 1900 to 2200); nothing where it is no such date.
std::optional<long> day_number(const std::string& date);

// The other way.
std::string date_of_day(long day);

}  // namespace podrate::sim
