// maturity_forecast.csv: each field's reading over the days, with what is not known of it.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

// A row each three hours from a field's first reading to a week beyond the logs' end.
std::string maturity_forecast_csv(const DayResult& result);

}  // namespace podrate::sim
