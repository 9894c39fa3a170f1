#include "day/forecast_keys.hpp"

#include "day/toml_access.hpp"

namespace podrate::sim {
namespace {

struct ForecastKey {
    const char* name;
    double low;
    double high;
    double ForecastKeys::*member;
};

constexpr ForecastKey kKeys[] = {
    {"seed", 0, 1e15, &ForecastKeys::seed},
    {"paths", 100, 20000, &ForecastKeys::paths},
    {"repair_min", 1, 2880, &ForecastKeys::repair_min},
    {"breakdowns_per_h", 0.001, 5, &ForecastKeys::breakdowns_per_h},
    {"breakdown_min", 10, 1440, &ForecastKeys::breakdown_min},
    {"short_stops_per_h", 0.001, 30, &ForecastKeys::short_stops_per_h},
    {"short_stop_min", 1, 10, &ForecastKeys::short_stop_min},
    {"stop_ln_sd", 0.05, 2, &ForecastKeys::stop_ln_sd},
    {"moves_per_h", 0.001, 5, &ForecastKeys::moves_per_h},
    {"move_min", 1, 600, &ForecastKeys::move_min},
    {"field_ln_sd", 0.01, 2, &ForecastKeys::field_ln_sd},
    {"rate_ln_sd", 0.01, 2, &ForecastKeys::rate_ln_sd},
    {"drift_ln_sd", 0, 1, &ForecastKeys::drift_ln_sd},
    {"wait_min", 0.1, 240, &ForecastKeys::wait_min},
    {"load_share", 0.2, 1.2, &ForecastKeys::load_share},
};

}  // namespace

ForecastKeys read_forecast_keys(const TomlView& top) {
    ForecastKeys keys;
    if (!top.has("forecast")) return keys;
    const toml::node& node = top.need("forecast", "");
    const toml::table* table = node.as_table();
    if (table == nullptr) top.refuse(node, "'forecast' is no table", "begin it with a line [forecast]");
    const TomlView view(*table, top.file(), "[forecast]");
    std::set<std::string> known;
    for (const ForecastKey& key : kKeys) {
        known.insert(key.name);
        keys.*key.member = view.number_or(key.name, key.low, key.high, keys.*key.member);
    }
    view.refuse_unknown_keys(known);
    return keys;
}

}  // namespace podrate::sim
