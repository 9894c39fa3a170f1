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

}  // namespace podrate::sim
