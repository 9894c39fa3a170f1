#include "model/clock_text.hpp"

#include <cstdio>

#include "day/local_time.hpp"
#include "log/number.hpp"

namespace podrate::ui {

std::string clock_text(TimeUs time_us, const std::string& time_zone, bool seconds) {
    const sim::LocalTime local = sim::local_time(time_us, time_zone);
    return seconds ? local.hh_mm() + ':' + local.ss() : local.hh_mm();
}

std::optional<TimeUs> parse_clock(const std::string& text, const std::string& time_zone, TimeUs near_us) {
    int hour = 0;
    int minute = 0;
    int second = 0;
    int used = 0;
    const auto whole = [&text](int length) { return length == static_cast<int>(text.size()); };
    const bool with_seconds =
        std::sscanf(text.c_str(), "%2d:%2d:%2d%n", &hour, &minute, &second, &used) == 3 && whole(used);
    if (!with_seconds) second = 0;
    const bool clock =
        with_seconds || (std::sscanf(text.c_str(), "%2d:%2d%n", &hour, &minute, &used) == 2 && whole(used));
    if (!clock) {
        const sim::ParsedNumber number = sim::parse_number(text);
        if (number.fault != sim::NumberFault::none || number.value < 0.0 || number.value > 4e9)
            return std::nullopt;
        return static_cast<TimeUs>(number.value * 1e6);
    }
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59) return std::nullopt;
    const int wanted_s = (hour * 60 + minute) * 60 + second;
    TimeUs found_us = near_us / kSecondUs * kSecondUs;
    // Twice, since the clock may be put forward or back in between.
    for (int round = 0; round < 2; ++round) {
        int ahead_s = wanted_s - sim::local_time(found_us, time_zone).second_of_day;
        if (ahead_s < (round == 0 ? 0 : -12 * 3600)) ahead_s += 24 * 3600;
        found_us += ahead_s * kSecondUs;
    }
    return found_us;
}

}  // namespace podrate::ui
