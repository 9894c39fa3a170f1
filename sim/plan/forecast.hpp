// The rest of a gang's day against the factory's plan, by many simulated paths.
#pragma once

#include <optional>

#include "plan/forecast_figures.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Nothing where there is no plan, where it ends with the books or more than three days after them, or where
// no machine has books, or books of more than a month. Machines: those of `result`, whose loss curves tell
// what speed costs; books end at `now_us`.
std::optional<Forecast> forecast_of(const Day& day, const DayResult& result, TimeUs now_us);

}  // namespace podrate::sim
