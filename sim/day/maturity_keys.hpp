// Keys of day.toml on how ripe the peas are, and the small tables beside it.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace podrate::sim {

class TomlView;

// A tenderometer reading of a field's sample, in the instrument's points: higher is riper.
struct MaturityReading {
    double unix_s = 0.0;
    std::string field;
    double tenderometer = 0.0;  // 30 to 300
};

// A day's air temperatures at the nearest station, measured or forecast.
struct WeatherDay {
    long day = 0;  // local, day_number()
    double min_c = 0.0;
    double max_c = 0.0;
};

// Yield at a reading over the yield at any fixed one. By default common practice, no source.
struct YieldPoint {
    double tenderometer = 0.0;
    double relative_yield = 0.0;
};

// How a day's heat units follow from its least and greatest temperature.
enum class HeatMethod {
    mean,  // of both, less the base, never below zero
    cut,   // of both after each is brought between base and top
    sine,  // of a sine through both, above the base and below the top
};

struct MaturityKeys {
    double heat_base_c = 4.4;  // -5 to 15; 4.4 and 5 are common; lower ones are published
    double heat_top_c = 60.0;  // above which more heat does nothing, 15 to 60; 60: no such limit
    HeatMethod heat_method = HeatMethod::mean;
    // What is believed of the rise of a reading before any was taken, as a share of it: per day, and per day
    // of 12 heat units. 0.5 to 30 %; common practice, no source.
    double ripening_pct_per_day = 4.5;
    double reading_sd = 2.0;             // points, of one reading for its field, 0.2 to 20; common practice
    double window_below = 5.0;           // points under the target, 0 to 60; common practice, no source
    double window_above = 10.0;          // ... and above
    double common_tenderometer = 100.0;  // at which yields are compared, 50 to 250
    double move_min = 30.0;              // the gang's move to another field, 0 to 600; common practice
    std::optional<double> price_per_t;   // of peas, in any currency
};

// Missing keys keep their defaults. Throws RefusedInput where one is out of range.
MaturityKeys read_maturity_keys(const TomlView& top);

// Their names.
const std::set<std::string>& maturity_key_names();

}  // namespace podrate::sim
