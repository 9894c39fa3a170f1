// Keys of day.toml's [forecast] table: what is thought of a gang's day before the day has said anything.
#pragma once

#include <cstdint>

namespace podrate::sim {

class TomlView;

// Each is a starting point that the day's own figures move away from. Common practice, no source.
struct ForecastKeys {
    double seed = 1.0;               // of the simulated paths, 0 to 1e15
    double paths = 1000.0;           // 100 to 20,000
    double repair_min = 60.0;        // the repair that the report asks about, 1 to 2880
    double breakdowns_per_h = 0.1;   // stops of 10 min or more, per hour of a machine's work
    double breakdown_min = 30.0;     // half of them last longer
    double short_stops_per_h = 1.0;  // of 1 to 10 min
    double short_stop_min = 2.5;     // half of them last longer
    double stop_ln_sd = 1.0;         // spread of the lengths of either, as ln
    double moves_per_h = 0.25;       // of the gang to another field
    double move_min = 6.0;           // that each machine needs for it
    double field_ln_sd = 0.2;        // spread of the work rate between fields, as ln
    double rate_ln_sd = 0.15;        // spread from one half hour of work to the next, as ln
    double drift_ln_sd = 0.03;       // of a machine's rate, as ln, after an hour; grows with its root
    double wait_min = 2.0;           // for a trailer, mean
    double load_share = 0.85;        // of the hopper's capacity at a tip
};

// Missing keys keep their defaults. Throws RefusedInput where one is unknown or out of range.
ForecastKeys read_forecast_keys(const TomlView& top);

}  // namespace podrate::sim
