// Where a parameter's values lie along a track.
#pragma once

#include <optional>
#include <vector>

#include "podrate/alarm/alarm_panel.hpp"
#include "podrate/parameters.hpp"

namespace podrate::ui {

// 0 at the least value to 1 at the most. Even, but where what is usual lies at the very beginning, as with
// delays of seconds that may be an hour: there by the fourth root.
double share_of_range(const ParameterInfo& info, double value);
// The nearest value that the table's decimals can tell. `share`: 0 to 1, else the nearer end.
double value_at_share(const ParameterInfo& info, double share);

// Some 40 values from the least to the most, evenly along the track, each once.
std::vector<double> values_along(const ParameterInfo& info);

// The one alarm that a parameter sets; nothing where it sets none or several.
std::optional<AlarmId> alarm_set_by(const ParameterInfo& info);

}  // namespace podrate::ui
