// "plan" of summary.json.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "day/day.hpp"
#include "replay/day_replay.hpp"

namespace podrate::sim {

// Null without a plan; without a forecast its part is null. Times are unix seconds.
nlohmann::ordered_json plan_json(const Day& day, const DayResult& result);

}  // namespace podrate::sim
