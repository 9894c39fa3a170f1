// Moments as local clock time.
#pragma once

#include <optional>
#include <string>

#include "podrate/sample.hpp"

namespace podrate::sim {

struct LocalTime {
    std::string date;       // "2025-06-27"
    int second_of_day = 0;  // 0 to 86,399

    [[nodiscard]] std::string hh_mm() const;
    [[nodiscard]] std::string ss() const;
};

// In an IANA time zone; where it is unknown, in UTC. Daylight saving as in the machine's tz database.
LocalTime local_time(TimeUs time_us, const std::string& time_zone);

// The moment of a date and an hour of the local day, "2025-06-27" and "14:05"; nothing where either is none,
// or the clock leaves that hour out. Of an hour that comes twice the first.
std::optional<TimeUs> local_moment(const std::string& date, const std::string& hh_mm,
                                   const std::string& time_zone);

}  // namespace podrate::sim
