#include "synth/land/true_ripening.hpp"

#include <algorithm>
#include <cmath>

#include "day/calendar.hpp"
#include "maturity/heat_clock.hpp"
#include "synth/random.hpp"

namespace podrate::sim {
namespace {

constexpr double kDayLike = 0.6;     // of a day's departure from the season, to the next day's
constexpr double kApartShare = 0.4;  // sd of minimum and maximum, each its own, as share of the common one
constexpr double kSecondsOfDay = 86400.0;
constexpr double kSecondsOfHour = 3600.0;

double to_tenths(double value) {
    return std::round(value * 10.0) / 10.0;
}

}  // namespace

TrueWeather true_weather(const Scenario& s) {
    TrueWeather weather;
    const std::optional<long> date = day_number(s.date);
    if (!s.weather || !date) return weather;
    const ScenarioWeather& w = *s.weather;
    Random random(s.seed, "weather");
    Random of_forecast(s.seed, "weather forecast");
    double departure_c = w.spread_c * random.normal();
    for (long day = -std::lround(w.days_before); day <= std::lround(w.days_after); ++day) {
        departure_c =
            kDayLike * departure_c + w.spread_c * std::sqrt(1.0 - kDayLike * kDayLike) * random.normal();
        const double season_c = w.warming_c_per_day * static_cast<double>(day) + departure_c;
        WeatherDay here;
        here.day = *date + day;
        here.min_c = to_tenths(w.min_c + season_c + kApartShare * w.spread_c * random.normal());
        here.max_c = to_tenths(w.max_c + season_c + kApartShare * w.spread_c * random.normal());
        here.max_c = std::max(here.max_c, here.min_c);
        weather.happened.push_back(here);
        if (day > 0) {
            const double off_c = to_tenths(w.forecast_sd_c * of_forecast.normal());
            here.min_c = to_tenths(here.min_c + off_c);
            here.max_c = to_tenths(here.max_c + off_c);
        }
        weather.told.push_back(here);
    }
    return weather;
}

TrueRipening::TrueRipening(const Scenario& s, const ScenarioField& field) {
    const auto start_s = static_cast<double>(s.start_unix_s);
    const double from_s = start_s - std::round(s.weather->days_before) * kSecondsOfDay;
    const double to_s = start_s + (std::round(s.weather->days_after) + 1.0) * kSecondsOfDay;
    const HeatClock clock(true_weather(s).happened, MaturityKeys(), s.time_zone, from_s, to_s, to_s);
    first_s_ = clock.first_s() - start_s;
    Random random(s.seed, "ripening " + field.name);
    const double hourly_sd = field.ripening_wander_pct / 100.0 / std::sqrt(24.0);
    double wandered = 0.0;
    for (double at_s = clock.first_s(); at_s <= clock.last_s(); at_s += kSecondsOfHour) {
        ln_.push_back(field.ripening_pct_per_heat_unit / 100.0 * clock.at(at_s) + wandered);
        wandered += hourly_sd * random.normal();
    }
}

double TrueRipening::walked(double time_s) const {
    const double hours =
        std::clamp((time_s - first_s_) / kSecondsOfHour, 0.0, static_cast<double>(ln_.size() - 1));
    const auto index = std::min(static_cast<std::size_t>(hours), ln_.size() - 2);
    return ln_[index] + (hours - static_cast<double>(index)) * (ln_[index + 1] - ln_[index]);
}

double TrueRipening::ln_rise(double time_s) const {
    return walked(time_s) - walked(0.0);
}

std::shared_ptr<const TrueRipening> true_ripening(const Scenario& scenario, const ScenarioField& field) {
    if (!scenario.weather || field.ripening_pct_per_heat_unit <= 0.0) return nullptr;
    return std::make_shared<const TrueRipening>(scenario, field);
}

}  // namespace podrate::sim
