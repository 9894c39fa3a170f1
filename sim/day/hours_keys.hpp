// Keys of day.toml for the day's books: how long a stop must be, the road, how old peas may be, shifts.
#pragma once

#include <set>
#include <string>
#include <vector>

namespace podrate::sim {

class TomlView;

// What the limit on the peas' age is counted from, up to the intake.
enum class FreshFrom { cutting, leaving_field };

struct HoursKeys {
    double stop_least_s = 60.0;      // 1 to 3600; common practice, no source
    double road_min = 25.0;          // from the tip to the intake, 0 to 600; common practice, no source
    double fresh_limit_min = 150.0;  // 1 to 2880
    FreshFrom fresh_from = FreshFrom::cutting;
    std::vector<int>
        shift_minutes;  // when shifts begin, minutes of the local day, rising: [[shift]] at = "HH:MM"
};

// Missing keys keep their defaults. Throws RefusedInput where one is out of range.
HoursKeys read_hours_keys(const TomlView& top);

// Their names.
const std::set<std::string>& hours_key_names();

}  // namespace podrate::sim
