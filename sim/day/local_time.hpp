// Moments as local clock time.
#pragma once

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

}  // namespace podrate::sim
