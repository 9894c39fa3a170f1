#include "day/hours_keys.hpp"

#include "day/toml_access.hpp"

namespace podrate::sim {

namespace {

constexpr std::size_t kMostShifts = 24;

int shift_minute(const TomlView& shift) {
    const std::string at = shift.text("at", "\"06:00\"");
    const auto digit = [&at](std::size_t i) { return at[i] >= '0' && at[i] <= '9' ? at[i] - '0' : 99; };
    if (at.size() == 5 && at[2] == ':') {
        const int hour = 10 * digit(0) + digit(1);
        const int minute = 10 * digit(3) + digit(4);
        if (hour < 24 && minute < 60) return 60 * hour + minute;
    }
    shift.refuse(shift.need("at", ""), "at '" + at + "' is no time of day", "write it like \"06:00\"");
}

std::vector<int> read_shifts(const TomlView& top) {
    std::vector<int> minutes;
    if (!top.has("shift")) return minutes;
    const toml::node& node = top.need("shift", "");
    const toml::array* list = node.as_array();
    if (list == nullptr || list->size() > kMostShifts) {
        top.refuse(node, "'shift' is no list of up to 24", "begin each shift with a line [[shift]]");
    }
    for (const toml::node& entry : *list) {
        const std::string place = "[[shift]] " + std::to_string(minutes.size() + 1);
        const toml::table* table = entry.as_table();
        if (table == nullptr) top.refuse(entry, place + " is no table", "begin it with a line [[shift]]");
        const TomlView shift(*table, top.file(), place);
        const int minute = shift_minute(shift);
        if (!minutes.empty() && minute <= minutes.back()) {
            shift.refuse(entry, "does not begin after the one before", "sort the shifts by their times");
        }
        minutes.push_back(minute);
    }
    return minutes;
}

}  // namespace

HoursKeys read_hours_keys(const TomlView& top) {
    HoursKeys keys;
    keys.stop_least_s = top.number_or("stop_least_s", 1.0, 3600.0, keys.stop_least_s);
    keys.road_min = top.number_or("road_min", 0.0, 600.0, keys.road_min);
    keys.fresh_limit_min = top.number_or("fresh_limit_min", 1.0, 2880.0, keys.fresh_limit_min);
    const std::string from = top.text_or("fresh_from", "cutting");
    if (from == "leaving_field") {
        keys.fresh_from = FreshFrom::leaving_field;
    } else if (from != "cutting") {
        top.refuse(top.need("fresh_from", ""), "fresh_from '" + from + "' is not known",
                   "write \"cutting\" or \"leaving_field\"");
    }
    keys.shift_minutes = read_shifts(top);
    return keys;
}

const std::set<std::string>& hours_key_names() {
    static const std::set<std::string> kNames = {"stop_least_s", "road_min", "fresh_limit_min", "fresh_from",
                                                 "shift"};
    return kNames;
}

}  // namespace podrate::sim
