#include <algorithm>
#include <cmath>
#include <set>

#include "day/common_keys.hpp"
#include "day/day.hpp"
#include "day/maturity_files.hpp"
#include "day/toml_access.hpp"
#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "log/small_table.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kMostMachines = 64;
constexpr double kMostPlannedT = 1e5;
constexpr double kMostOnGroundKgPerHa = 5e4;
constexpr double kCountingSd = 0.12;  // share of the peas missed or counted twice; common practice, no source
constexpr double kMostCostPerH = 1e6;
constexpr double kLatestUnixS = 9999999999.0;

// How a candump log is listened to: interface, senders by their source addresses, elements of the device.
void read_bus_choice(const TomlView& view, BusChoice& bus, std::set<std::string>& known) {
    constexpr double kLastAddress = 253.0;
    constexpr double kLastElement = 4095.0;
    bus::BusSettings& b = bus.settings;
    bus.interface = view.text_or("can_interface", "");
    known.insert("can_interface");
    const auto read = [&](const char* key, double most, auto& to) {
        known.insert(key);
        if (!view.has(key)) return;
        const double value = view.number(key, 0.0, most);
        if (value != std::floor(value))
            view.refuse(view.need(key, ""), std::string(key) + " is no whole number",
                        "give 0 to " + fixed(most, 0));
        to = static_cast<std::decay_t<decltype(to)>>(value);
    };
    read("weight_from", kLastAddress, b.weight_from);
    read("speed_from", kLastAddress, b.speed_from);
    read("position_from", kLastAddress, b.position_from);
    read("heading_from", kLastAddress, b.heading_from);
    read("tilt_from", kLastAddress, b.tilt_from);
    read("reel_from", kLastAddress, b.reel_from);
    read("hits_from", kLastAddress, b.hits_from);
    read("hopper_element", kLastElement, b.hopper_element);
    read("first_cell_element", kLastElement, b.first_cell_element);
    read("reel_element", kLastElement, b.reel_element);
    read("weight_cells", bus::CellRound::kMost, b.cells);
}

Machine read_machine(const TomlView& view, const std::filesystem::path& folder, Problems& problems) {
    Machine machine;
    machine.id = read_machine_id(view);
    const std::string log = view.text("log", "\"viner_1.csv\"");
    const std::filesystem::path relative(log);
    if (log.empty() || relative.is_absolute() || log.find("..") != std::string::npos) {
        view.refuse(view.need("log", ""), "log '" + log + "' leads out of the day's folder",
                    "give a path inside it, like \"viner_1.csv\"");
    }
    machine.log = folder / relative;
    std::set<std::string> known = {"id", "log", "cost_per_h"};
    read_bus_choice(view, machine.bus, known);
    if (view.has("cost_per_h")) machine.cost_per_h = view.number("cost_per_h", 0.0, kMostCostPerH);
    for (const ParameterInfo& info : kParameterTable) {
        known.insert(info.name);
        const bool required = std::string(info.name) == "width_m";
        if (!required && !view.has(info.name)) continue;
        machine.parameters.*info.member = static_cast<Real>(view.number(info.name, info.low, info.high));
    }
    for (const auto& [key, node] : view.table()) {
        if (known.count(std::string(key.str())) != 0) continue;
        problems.add({view.file(), node.source().begin.line,
                      "unknown key '" + shortened(key.str()) + "' passed over",
                      "`podrate parameters` lists the keys of a machine", true});
    }
    return machine;
}

// Each machine gets its own, in order of time.
void give_trays(const std::filesystem::path& path, Day& day) {
    for (const TrayCheck& check : day.tray_checks) {
        const auto of_it = std::find_if(day.machines.begin(), day.machines.end(),
                                        [&](const Machine& m) { return m.id == check.machine; });
        if (of_it == day.machines.end()) {
            day.problems.add({path.string(), 0,
                              "names a machine '" + shortened(check.machine) + "' that day.toml has not",
                              "tray check left out; use the id of a [[machine]]"});
            continue;
        }
        of_it->trays.push_back(check);
    }
    for (Machine& machine : day.machines) {
        std::stable_sort(machine.trays.begin(), machine.trays.end(),
                         [](const TrayCheck& a, const TrayCheck& b) { return a.unix_s < b.unix_s; });
    }
}

void read_tray_checks(const std::filesystem::path& path, Day& day) {
    const SmallTable table(path, day.problems);
    const bool by_mass = table.has("kg_per_ha");
    for (const SmallTable::Row& row : table.rows()) {
        TrayCheck check;
        check.machine = table.text(row, "machine");
        if (!table.number(row, "unix_s", check.unix_s, day.problems)) continue;
        if (by_mass && !table.text(row, "kg_per_ha").empty()) {
            if (!table.number(row, "kg_per_ha", check.kg_per_ha, day.problems)) continue;
        } else {
            double count = 0.0;
            double area_m2 = 0.0;
            double thousand_pea_g = 0.0;
            if (!table.number(row, "count", count, day.problems) ||
                !table.number(row, "area_m2", area_m2, day.problems) ||
                !table.number(row, "thousand_pea_g", thousand_pea_g, day.problems)) {
                continue;
            }
            if (area_m2 <= 0.0) {
                day.problems.add({path.string(), row.line, "area_m2 is not above zero", "row skipped"});
                continue;
            }
            check.kg_per_ha = ground_kg_per_ha(count, area_m2, thousand_pea_g);
            check.sd_share = tray_sd_share(count);
        }
        if (check.kg_per_ha < 0.0 || check.kg_per_ha > kMostOnGroundKgPerHa) {
            day.problems.add({path.string(), row.line, "peas on the ground are outside 0 to 50,000 kg/ha",
                              "row skipped; check count, area_m2 and thousand_pea_g"});
            continue;
        }
        day.tray_checks.push_back(check);
    }
    give_trays(path, day);
}

void read_intake_plan(const std::filesystem::path& path, Day& day) {
    const SmallTable table(path, day.problems);
    for (const SmallTable::Row& row : table.rows()) {
        PlanPoint point;
        if (!table.number(row, "unix_s", point.unix_s, day.problems)) continue;
        if (!table.number(row, "planned_t", point.planned_t, day.problems)) continue;
        const bool sane = point.planned_t >= 0.0 && point.planned_t <= kMostPlannedT && point.unix_s >= 0.0 &&
                          point.unix_s <= kLatestUnixS;
        if (!sane) {
            day.problems.add({path.string(), row.line,
                              "plan is outside 0 to 100,000 t, or its time outside unix seconds",
                              "row skipped; planned_t counts tonnes"});
            continue;
        }
        if (!day.intake_plan.empty() && point.planned_t < day.intake_plan.back().planned_t) {
            day.problems.add({path.string(), row.line, "the plan falls",
                              "row skipped; planned_t is the sum since the day began"});
            continue;
        }
        if (!day.intake_plan.empty() && point.unix_s < day.intake_plan.back().unix_s) {
            day.problems.add(
                {path.string(), row.line, "time goes back", "row skipped; sort the plan by time"});
            continue;
        }
        day.intake_plan.push_back(point);
    }
}

void read_machines(const TomlView& top, const std::filesystem::path& folder, Day& day) {
    const toml::node& node = top.need("machine", "…, as [[machine]] with id, log and width_m");
    const toml::array* list = node.as_array();
    if (list == nullptr || list->empty()) {
        top.refuse(node, "'machine' is no list", "begin each machine with a line [[machine]]");
    }
    if (list->size() > kMostMachines) top.refuse(node, "has more than 64 machines", "split the day");
    std::set<std::string> ids;
    std::set<std::filesystem::path> logs;
    std::size_t number = 0;
    for (const toml::node& entry : *list) {
        const std::string place = "[[machine]] " + std::to_string(++number);
        const toml::table* table = entry.as_table();
        if (table == nullptr)
            top.refuse(entry, place + " is no table", "begin each machine with a line [[machine]]");
        const TomlView view(*table, top.file(), place);
        day.machines.push_back(read_machine(view, folder, day.problems));
        if (!logs.insert(day.machines.back().log.lexically_normal()).second) {
            view.refuse(entry, "log '" + day.machines.back().log.filename().string() + "' stands twice",
                        "give each machine its own log");
        }
        if (!ids.insert(day.machines.back().id).second) {
            view.refuse(entry, "id '" + day.machines.back().id + "' stands twice",
                        "give each machine its own id");
        }
    }
}

}  // namespace

double ground_kg_per_ha(double count, double area_m2, double thousand_pea_g) {
    return count / area_m2 * thousand_pea_g / 100.0;
}

double tray_sd_share(double count) {
    return std::sqrt(1.0 / std::max(count, 1.0) + kCountingSd * kCountingSd);
}

Day read_day(const std::filesystem::path& folder) {
    const std::filesystem::path file = folder / "day.toml";
    std::error_code unseen;
    if (!std::filesystem::exists(file, unseen)) {
        throw RefusedInput({folder.string(), 0, "holds no day.toml",
                            "give a day's folder, or one log file together with --width"});
    }
    const toml::table table = parse_toml(file);
    const TomlView view(table, file.string(), "");
    Day day;
    day.label = view.text_or("label", folder.filename().string());
    day.date = view.has("date") ? view.date("date") : std::string();
    day.time_zone = read_time_zone(view);
    day.hours = read_hours_keys(view);
    day.ripeness = read_maturity_keys(view);
    day.forecast = read_forecast_keys(view);
    day.map_cell_m = view.number_or("map_cell_m", 5.0, 100.0, day.map_cell_m);
    read_machines(view, folder, day);
    for (const auto& [key, node] : table) {
        static const std::set<std::string> known = {"label",   "date",     "time_zone",
                                                    "machine", "forecast", "map_cell_m"};
        const std::string name(key.str());
        if (known.count(name) + hours_key_names().count(name) + maturity_key_names().count(name) != 0)
            continue;
        day.problems.add({file.string(), node.source().begin.line,
                          "unknown key '" + shortened(key.str()) + "' passed over",
                          "check its spelling if it was meant to be read", true});
    }
    const auto beside = [&](const char* name) {
        std::error_code error;
        if (!std::filesystem::exists(folder / name, error)) return false;
        if (std::filesystem::is_regular_file(folder / name, error)) return true;
        day.problems.add({(folder / name).string(), 0, "is no file", "the day is worked without it"});
        return false;
    };
    if (beside("fields.geojson")) day.fields = read_fields(folder / "fields.geojson", day.problems);
    if (beside("tray_checks.csv")) read_tray_checks(folder / "tray_checks.csv", day);
    if (beside("maturity.csv")) day.maturity = read_maturity(folder / "maturity.csv", day.problems);
    if (beside("weather.csv")) day.weather = read_weather(folder / "weather.csv", day.problems);
    if (beside("maturity_yield.csv"))
        day.yield_table = read_yield_table(folder / "maturity_yield.csv", day.problems);
    if (beside("intake_plan.csv")) read_intake_plan(folder / "intake_plan.csv", day);
    return day;
}

void end_day_at(Day& day, TimeUs time_us) {
    const auto later = [time_us](const auto& one) {
        return one.unix_s * 1e6 >= static_cast<double>(time_us);
    };
    for (Machine& machine : day.machines) {
        machine.until_us = time_us;
        std::erase_if(machine.trays, later);
    }
    std::erase_if(day.tray_checks, later);
    std::erase_if(day.maturity, later);
}

Day day_of_one_log(const std::filesystem::path& log, double width_m) {
    Day day;
    day.label = log.filename().string();
    Machine machine;
    machine.id = log.stem().string();
    if (log.extension() == ".zst") machine.id = log.stem().stem().string();
    if (!is_file_name(machine.id)) machine.id = "viner";
    machine.log = log;
    machine.parameters.width_m = static_cast<Real>(width_m);
    day.machines.push_back(machine);
    return day;
}

}  // namespace podrate::sim
