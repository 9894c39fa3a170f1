// The files of a synthetic day on how ripe its fields are.
#pragma once

#include <string>
#include <vector>

#include "synth/land/crop_field.hpp"
#include "synth/land/true_ripening.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

std::string maturity_text(const Scenario& scenario, const std::vector<CropField>& crops);
std::string weather_text(const std::vector<WeatherDay>& days);
// The reading without error of each field that ripens by heat, hour by hour from the day's start to the
// weather's end.
std::string true_maturity_text(const Scenario& scenario, const std::vector<CropField>& crops);

}  // namespace podrate::sim
