#include "day/maturity_keys.hpp"

#include "day/toml_access.hpp"

namespace podrate::sim {

MaturityKeys read_maturity_keys(const TomlView& top) {
    MaturityKeys keys;
    const auto read = [&top](const char* name, double low, double high, double& into) {
        into = top.number_or(name, low, high, into);
    };
    read("heat_base_c", -5.0, 15.0, keys.heat_base_c);
    read("heat_top_c", 15.0, 60.0, keys.heat_top_c);
    read("ripening_pct_per_day", 0.5, 30.0, keys.ripening_pct_per_day);
    read("reading_sd", 0.2, 20.0, keys.reading_sd);
    read("window_below", 0.0, 60.0, keys.window_below);
    read("window_above", 0.0, 60.0, keys.window_above);
    read("common_tenderometer", 50.0, 250.0, keys.common_tenderometer);
    read("move_min", 0.0, 600.0, keys.move_min);
    if (top.has("price_per_t")) keys.price_per_t = top.number("price_per_t", 0.0, 1e6);
    const std::string method = top.text_or("heat_method", "mean");
    if (method == "cut") {
        keys.heat_method = HeatMethod::cut;
    } else if (method == "sine") {
        keys.heat_method = HeatMethod::sine;
    } else if (method != "mean") {
        top.refuse(top.need("heat_method", ""), "heat_method '" + method + "' is not known",
                   "write \"mean\", \"cut\" or \"sine\"");
    }
    return keys;
}

const std::set<std::string>& maturity_key_names() {
    static const std::set<std::string> kNames = {
        "heat_base_c", "heat_top_c",   "heat_method",  "ripening_pct_per_day",
        "reading_sd",  "window_below", "window_above", "common_tenderometer",
        "move_min",    "price_per_t"};
    return kNames;
}

}  // namespace podrate::sim
