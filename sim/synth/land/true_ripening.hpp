// The weather of a scenario, what was forecast of it, and how its fields ripen by it.
#pragma once

#include <memory>
#include <vector>

#include "day/maturity_keys.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// Temperatures about the scenario's own date.
struct TrueWeather {
    std::vector<WeatherDay> happened;
    std::vector<WeatherDay> told;  // as it happened up to the date, as forecast after it
};

// Empty where the scenario has no weather. By the seed.
TrueWeather true_weather(const Scenario& scenario);

// ln of a field's reading against the day's start, hour by hour: a rate times heat units above 4.4 °C, and a
// random walk. Covers the days of the scenario's weather.
class TrueRipening {
  public:
    TrueRipening(const Scenario& scenario, const ScenarioField& field);

    // Seconds since the scenario's start, either sign. Held beyond the weather's days.
    [[nodiscard]] double ln_rise(double time_s) const;

  private:
    [[nodiscard]] double walked(double time_s) const;
    double first_s_ = 0.0;
    std::vector<double> ln_;
};

// Nothing where the field does not ripen by heat.
std::shared_ptr<const TrueRipening> true_ripening(const Scenario& scenario, const ScenarioField& field);

}  // namespace podrate::sim
