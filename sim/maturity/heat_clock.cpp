#include "maturity/heat_clock.hpp"

#include <algorithm>
#include <cmath>

#include "day/calendar.hpp"
#include "day/local_time.hpp"
#include "maturity/heat_units.hpp"

namespace podrate::sim {
namespace {

constexpr double kClockHourS = 3600.0;
constexpr double kMostHours = 400.0 * 24.0;
constexpr double kForecastSdC = 1.5;  // of a forecast day's mean temperature; common practice, no source
constexpr double kUnknownSdC = 3.0;   // of a day that nobody forecast
constexpr long kLastDays = 7;

struct DayHeat {
    WeatherDay day;
    bool told = false;
};

DayHeat of_day(const std::vector<WeatherDay>& weather, long number) {
    const auto next = std::lower_bound(weather.begin(), weather.end(), number,
                                       [](const WeatherDay& d, long n) { return d.day < n; });
    if (next != weather.end() && next->day == number) return {*next, true};
    WeatherDay filled;
    filled.day = number;
    if (next == weather.begin()) {
        filled.min_c = next->min_c;
        filled.max_c = next->max_c;
    } else if (next == weather.end()) {
        const auto first = weather.end() - std::min<long>(kLastDays, static_cast<long>(weather.size()));
        const auto count = static_cast<double>(weather.end() - first);
        for (auto day = first; day != weather.end(); ++day) {
            filled.min_c += day->min_c / count;
            filled.max_c += day->max_c / count;
        }
    } else {
        const WeatherDay& before = *(next - 1);
        const double share =
            static_cast<double>(number - before.day) / static_cast<double>(next->day - before.day);
        filled.min_c = before.min_c + share * (next->min_c - before.min_c);
        filled.max_c = before.max_c + share * (next->max_c - before.max_c);
    }
    return {filled, false};
}

}  // namespace

HeatClock::HeatClock(const std::vector<WeatherDay>& weather, const MaturityKeys& keys,
                     const std::string& time_zone, double from_s, double to_s, double now_s)
    : by_heat_(!weather.empty()), first_s_(std::floor(from_s / kClockHourS) * kClockHourS) {
    const double hours = std::clamp(std::ceil((to_s - first_s_) / kClockHourS), 1.0, kMostHours);
    double units = 0.0;
    double variance = 0.0;
    units_.push_back(units);
    variance_.push_back(variance);
    for (double hour = 0.0; hour < hours; ++hour) {
        const double at_s = first_s_ + hour * kClockHourS;
        if (by_heat_) {
            const LocalTime local =
                local_time(static_cast<TimeUs>(at_s + 0.5 * kClockHourS) * kSecondUs, time_zone);
            const DayHeat heat = of_day(weather, day_number(local.date).value_or(0));
            const WeatherDay& d = heat.day;
            units += heat_units(keys.heat_method, d.min_c, d.max_c, keys.heat_base_c, keys.heat_top_c) *
                     heat_share_of_hour(local.second_of_day / 3600, d.min_c, d.max_c, keys.heat_base_c);
            const double sd_c = heat.told ? kForecastSdC : kUnknownSdC;
            if (at_s >= now_s) variance += sd_c * sd_c / 24.0;
        } else {
            units += 1.0 / 24.0;
        }
        units_.push_back(units);
        variance_.push_back(variance);
    }
}

double HeatClock::last_s() const {
    return first_s_ + kClockHourS * static_cast<double>(units_.size() - 1);
}

double HeatClock::between(const std::vector<double>& hourly, double unix_s) const {
    const double hours =
        std::clamp((unix_s - first_s_) / kClockHourS, 0.0, static_cast<double>(hourly.size() - 1));
    const auto index = std::min(static_cast<std::size_t>(hours), hourly.size() - 2);
    const double share = hours - static_cast<double>(index);
    return hourly[index] + share * (hourly[index + 1] - hourly[index]);
}

std::optional<double> heat_since_sowing(const std::vector<WeatherDay>& weather, const MaturityKeys& keys,
                                        long sown, long until) {
    if (until - sown > 400 || until < sown) return std::nullopt;
    double sum = 0.0;
    for (long day = sown; day < until; ++day) {
        if (weather.empty()) return std::nullopt;
        const DayHeat heat = of_day(weather, day);
        if (!heat.told) return std::nullopt;
        sum +=
            heat_units(keys.heat_method, heat.day.min_c, heat.day.max_c, keys.heat_base_c, keys.heat_top_c);
    }
    return sum;
}

}  // namespace podrate::sim
