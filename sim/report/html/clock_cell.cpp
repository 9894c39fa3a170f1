#include "report/html/clock_cell.hpp"

#include "day/local_time.hpp"

namespace podrate::sim {

std::string clock_cell(TimeUs time_us, const Day& day, const DayResult& result) {
    const bool over_midnight =
        local_time(result.first_us, day.time_zone).date != local_time(result.last_us, day.time_zone).date;
    const LocalTime at = local_time(time_us, day.time_zone);
    return (over_midnight ? at.date + ' ' : std::string()) + at.hh_mm();
}

}  // namespace podrate::sim
