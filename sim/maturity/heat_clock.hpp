// The clock that peas ripen by: heat units where temperatures are told, else days.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "day/maturity_keys.hpp"

namespace podrate::sim {

class HeatClock {
  public:
    // Covers `from_s` to `to_s`, unix seconds, at most 400 days; days and hours of the time zone. Days
    // between two told ones are interpolated, those before the first are as that one, those after the last as
    // the mean of the last seven. What comes after `now_s` is forecast. Without `weather` it counts days.
    HeatClock(const std::vector<WeatherDay>& weather, const MaturityKeys& keys, const std::string& time_zone,
              double from_s, double to_s, double now_s);

    [[nodiscard]] bool by_heat() const { return by_heat_; }
    // Since the clock's start: °C days, or days. Held beyond its ends.
    [[nodiscard]] double at(double unix_s) const { return between(units_, unix_s); }
    // Variance of that for what is not yet known of the weather, against `now_s`.
    [[nodiscard]] double variance_at(double unix_s) const { return between(variance_, unix_s); }
    [[nodiscard]] double first_s() const { return first_s_; }
    [[nodiscard]] double last_s() const;

  private:
    [[nodiscard]] double between(const std::vector<double>& hourly, double unix_s) const;
    bool by_heat_;
    double first_s_;
    std::vector<double> units_;     // at each full hour
    std::vector<double> variance_;  // of the forecast
};

// Heat units of the days from `sown` to the one before `until`, both local day numbers; nothing where one of
// those days, or the sowing's, is not told.
std::optional<double> heat_since_sowing(const std::vector<WeatherDay>& weather, const MaturityKeys& keys,
                                        long sown, long until);

}  // namespace podrate::sim
