#include "day/local_time.hpp"

#include <date/tz.h>

#include <chrono>
#include <sstream>

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
    std::istringstream text(date + ' ' + hh_mm);
    std::chrono::sys_seconds as_utc;
    text >> date::parse("%F %H:%M", as_utc);
    if (text.fail() || text.peek() != std::istringstream::traits_type::eof()) return std::nullopt;
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
