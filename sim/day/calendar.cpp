#include "day/calendar.hpp"

#include <chrono>

namespace podrate::sim {

std::optional<long> day_number(const std::string& date) {
    if (date.size() != 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
    int parts[3] = {0, 0, 0};
    int part = 0;
    for (std::size_t i = 0; i < date.size(); ++i) {
        if (i == 4 || i == 7) {
            ++part;
        } else if (date[i] < '0' || date[i] > '9') {
            return std::nullopt;
        } else {
            parts[part] = 10 * parts[part] + (date[i] - '0');
        }
    }
    const std::chrono::year_month_day calendar{std::chrono::year(parts[0]),
                                               std::chrono::month(static_cast<unsigned>(parts[1])),
                                               std::chrono::day(static_cast<unsigned>(parts[2]))};
    if (!calendar.ok() || parts[0] < 1900 || parts[0] > 2200) return std::nullopt;
    return std::chrono::sys_days(calendar).time_since_epoch().count();
}

std::string date_of_day(long day) {
    const std::chrono::year_month_day calendar{std::chrono::sys_days(std::chrono::days(day))};
    const auto padded = [](unsigned value) { return (value < 10 ? "-0" : "-") + std::to_string(value); };
    return std::to_string(static_cast<int>(calendar.year())) +
           padded(static_cast<unsigned>(calendar.month())) + padded(static_cast<unsigned>(calendar.day()));
}

}  // namespace podrate::sim
