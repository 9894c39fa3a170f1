#include "day/local_time.hpp"

#include <date/tz.h>

#include <chrono>

namespace podrate::sim {
namespace {

std::string two_digits(int value) {
    return (value < 10 ? "0" : "") + std::to_string(value);
}

std::chrono::seconds offset_at(std::chrono::sys_seconds moment, const std::string& time_zone) {
    try {
        return date::locate_zone(time_zone)->get_info(moment).offset;
    } catch (const std::exception&) {
        return std::chrono::seconds(0);
    }
}

}  // namespace

std::string LocalTime::hh_mm() const {
    return two_digits(second_of_day / 3600) + ':' + two_digits(second_of_day / 60 % 60);
}

std::string LocalTime::ss() const {
    return two_digits(second_of_day % 60);
}

LocalTime local_time(TimeUs time_us, const std::string& time_zone) {
    const std::chrono::sys_seconds moment(
        std::chrono::floor<std::chrono::seconds>(std::chrono::microseconds(time_us)));
    const std::chrono::sys_seconds local = moment + offset_at(moment, time_zone);
    const auto day = std::chrono::floor<std::chrono::days>(local);
    LocalTime out;
    out.date = date::format("%F", date::sys_days(day));
    out.second_of_day = static_cast<int>((local - day).count());
    return out;
}

std::optional<TimeUs> local_moment(const std::string& date, const std::string& hh_mm,
                                   const std::string& time_zone) {
    const auto number = [](const std::string& text, std::size_t at, std::size_t length) {
        int value = 0;
        for (std::size_t i = at; i < at + length; ++i) {
            if (text[i] < '0' || text[i] > '9') return -1;
            value = 10 * value + (text[i] - '0');
        }
        return value;
    };
    if (date.size() != 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
    if (hh_mm.size() != 5 || hh_mm[2] != ':') return std::nullopt;
    const std::chrono::year_month_day day{std::chrono::year(number(date, 0, 4)),
                                          std::chrono::month(static_cast<unsigned>(number(date, 5, 2))),
                                          std::chrono::day(static_cast<unsigned>(number(date, 8, 2)))};
    const int hour = number(hh_mm, 0, 2);
    const int minute = number(hh_mm, 3, 2);
    if (!day.ok() || hour < 0 || hour > 23 || minute < 0 || minute > 59) return std::nullopt;
    const std::chrono::sys_seconds as_utc =
        std::chrono::sys_days(day) + std::chrono::hours(hour) + std::chrono::minutes(minute);
    // The offset before the moment first: of two moments with the same clock it gives the earlier.
    for (const auto near : {std::chrono::hours(-14), std::chrono::hours(14)}) {
        const auto moment = as_utc - offset_at(as_utc + near, time_zone);
        const TimeUs time_us = std::chrono::microseconds(moment.time_since_epoch()).count();
        const LocalTime back = local_time(time_us, time_zone);
        if (back.date == date && back.hh_mm() == hh_mm) return time_us;
    }
    return std::nullopt;
}

}  // namespace podrate::sim
