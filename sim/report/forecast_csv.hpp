// forecast.csv: quantiles of what will have been delivered.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

// Rows of moment, case and quantile; the header alone where there is no forecast. Cases: "all",
// "without ID", "repair ID".
std::string forecast_csv(const DayResult& result);

// The case as it is named there.
std::string case_name(const PlanCase& c);

}  // namespace podrate::sim
