#include <cmath>
#include <set>

#include "day/common_keys.hpp"
#include "day/toml_access.hpp"
#include "log/number.hpp"
#include "synth/random.hpp"
#include "synth/scenario/number_keys.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {
namespace {

constexpr double kFarthestM = 20000.0;

// A number, or one drawn from a pair [low, high].
template <class T>
double number_or_draw(const TomlView& view, const NumberKey<T>& key, std::uint64_t seed,
                      const std::string& owner) {
    const toml::array* pair = view.table().get(key.name)->as_array();
    if (pair == nullptr) return view.number(key.name, key.low, key.high);
    const bool numbers = pair->size() == 2 && (*pair)[0].is_number() && (*pair)[1].is_number();
    const double low = numbers ? *(*pair)[0].template value<double>() : 0.0;
    const double high = numbers ? *(*pair)[1].template value<double>() : 0.0;
    if (!numbers || !(low >= key.low && low <= high && high <= key.high)) {
        view.refuse(*pair, "'" + std::string(key.name) + "' is no range",
                    "give [low, high] within " + fixed(key.low, 3) + " to " + fixed(key.high, 3));
    }
    return Random(seed, "draw " + owner + ' ' + key.name).uniform(low, high);
}

// Reads those of `keys` that are given and adds all to `known`.
template <class T, std::size_t N>
void read_numbers(const TomlView& view, const NumberKey<T> (&keys)[N], std::uint64_t seed,
                  const std::string& owner, std::set<std::string>& known, T& into) {
    for (const NumberKey<T>& key : keys) {
        known.insert(key.name);
        if (view.has(key.name)) into.*key.member = number_or_draw(view, key, seed, owner);
    }
}

// Runs `read` on each table of the array `key`.
template <class Read>
void each_table(const TomlView& top, const std::string& key, Read read) {
    if (!top.has(key)) return;
    const toml::node& node = top.need(key, "");
    const toml::array* list = node.as_array();
    if (list == nullptr)
        top.refuse(node, "'" + key + "' is no list", "begin each with a line [[" + key + "]]");
    std::size_t number = 0;
    for (const toml::node& entry : *list) {
        const std::string place = "[[" + key + "]] " + std::to_string(++number);
        if (!entry.is_table())
            top.refuse(entry, place + " is no table", "begin it with a line [[" + key + "]]");
        read(TomlView(*entry.as_table(), top.file(), place));
    }
}

// The numbers of the one table `key`, where there is one.
template <class T, std::size_t N>
void read_table(const TomlView& top, const std::string& key, const NumberKey<T> (&keys)[N],
                std::uint64_t seed, T& into) {
    if (!top.has(key)) return;
    const toml::table* table = top.table().get_as<toml::table>(key);
    if (table == nullptr)
        top.refuse(top.need(key, ""), "'" + key + "' is no table", "begin it with a line [" + key + "]");
    std::set<std::string> known;
    const TomlView view(*table, top.file(), "[" + key + "]");
    read_numbers(view, keys, seed, key, known, into);
    view.refuse_unknown_keys(known);
}

std::vector<EastNorth> read_corners(const TomlView& view) {
    const toml::node& node = view.need("corners_m", "[[0, 0], [300, 0], [300, 200], [0, 200]]");
    const char* mend = "give at least three [east, north] pairs in metres";
    std::vector<EastNorth> corners;
    if (!node.is_array()) view.refuse(node, "'corners_m' is no list", mend);
    for (const toml::node& pair : *node.as_array()) {
        const toml::array* numbers = pair.as_array();
        if (numbers == nullptr || numbers->size() != 2 || !(*numbers)[0].is_number() ||
            !(*numbers)[1].is_number()) {
            view.refuse(pair, "a corner is no pair of numbers", mend);
        }
        corners.push_back({*(*numbers)[0].value<double>(), *(*numbers)[1].value<double>()});
        const bool near =
            std::abs(corners.back().east_m) <= kFarthestM && std::abs(corners.back().north_m) <= kFarthestM;
        if (!near) view.refuse(pair, "a corner is more than 20 km from the origin", mend);
    }
    if (corners.size() < 3) view.refuse(node, "'corners_m' has fewer than three corners", mend);
    return corners;
}

std::vector<ScenarioObstacle> read_obstacles(const TomlView& view) {
    std::vector<ScenarioObstacle> obstacles;
    if (!view.has("obstacles_m")) return obstacles;
    const toml::node& node = view.need("obstacles_m", "");
    const char* mend = "give [east, north, radius] of each in metres, the radius 0.5 to 200";
    if (!node.is_array()) view.refuse(node, "'obstacles_m' is no list", mend);
    for (const toml::node& entry : *node.as_array()) {
        const toml::array* numbers = entry.as_array();
        bool good = numbers != nullptr && numbers->size() == 3;
        for (std::size_t i = 0; good && i < 3; ++i) good = (*numbers)[i].is_number();
        ScenarioObstacle obstacle;
        if (good) {
            obstacle.place = {*(*numbers)[0].value<double>(), *(*numbers)[1].value<double>()};
            obstacle.radius_m = *(*numbers)[2].value<double>();
            good = std::abs(obstacle.place.east_m) <= kFarthestM &&
                   std::abs(obstacle.place.north_m) <= kFarthestM && obstacle.radius_m >= 0.5 &&
                   obstacle.radius_m <= 200.0;
        }
        if (!good) view.refuse(entry, "an obstacle is no place with a radius", mend);
        obstacles.push_back(obstacle);
    }
    return obstacles;
}

ScenarioField read_field(const TomlView& view, std::uint64_t seed) {
    ScenarioField field;
    field.name = view.text("name", "\"Long Acre\"");
    field.corners = read_corners(view);
    field.obstacles = read_obstacles(view);
    field.sown = view.text_or("sown", "");
    std::set<std::string> known = {"name", "corners_m", "obstacles_m", "sown"};
    read_numbers(view, kFieldKeys, seed, field.name, known, field);
    view.refuse_unknown_keys(known);
    return field;
}

ScenarioMachine read_machine(const TomlView& view, std::uint64_t seed) {
    ScenarioMachine machine;
    machine.id = read_machine_id(view);
    std::set<std::string> known = {"id", "logged_as"};
    read_numbers(view, kMachineKeys, seed, machine.id, known, machine);
    read_numbers(view, kDrumKeys, seed, machine.id, known, machine.drum);
    read_numbers(view, kDriverKeys, seed, machine.id, known, machine.driver);
    read_numbers(view, kScaleKeys, seed, machine.id, known, machine.scale);
    read_numbers(view, kSensesKeys, seed, machine.id, known, machine.senses);
    read_numbers(view, kHitsKeys, seed, machine.id, known, machine.hits);
    view.refuse_unknown_keys(known);
    machine.scale.cells = std::round(machine.scale.cells);
    const std::string logged = view.text_or("logged_as", "sum");
    if (logged != "sum" && logged != "cells") {
        view.refuse(view.need("logged_as", ""), "logged_as '" + logged + "' is not known",
                    "give \"sum\" or \"cells\"");
    }
    machine.cells_apart = logged == "cells";
    return machine;
}

ScenarioEvent read_event(const TomlView& view) {
    ScenarioEvent event;
    const std::string kind = view.text("kind", "\"breakdown\"");
    if (kind == "breakdown") {
        event.kind = ScenarioEvent::Kind::breakdown;
    } else if (kind == "rest") {
        event.kind = ScenarioEvent::Kind::rest;
    } else if (kind != "pause_in_crop") {
        view.refuse(view.need("kind", ""), "kind '" + kind + "' is not known",
                    "give \"pause_in_crop\", \"breakdown\" or \"rest\"");
    }
    event.machine = view.text("machine", "\"viner_1\"");
    view.refuse_unknown_keys({"kind", "machine", "at_s", "for_s"});
    event.at_s = view.number("at_s", 0, 864000);
    event.for_s = view.number("for_s", 1, 864000);
    return event;
}

ScenarioFault read_fault(const TomlView& view) {
    ScenarioFault fault;
    const std::string kind = view.text("kind", "\"weight_stuck\"");
    const std::optional<FaultKind> named = fault_named(kind);
    if (!named) {
        std::string known;
        for (int i = 0; i < kFaultKinds; ++i)
            known += std::string(known.empty() ? "" : ", ") + name_of(static_cast<FaultKind>(i));
        view.refuse(view.need("kind", ""), "kind '" + kind + "' is not known", "give one of " + known);
    }
    fault.kind = *named;
    view.refuse_unknown_keys({"kind", "machine", "at_s", "for_s", "size", "cell"});
    fault.machine = view.text("machine", "\"viner_1\"");
    fault.at_s = view.number("at_s", 0, 864000);
    const FaultNeeds needs = needs_of(fault.kind);
    fault.for_s = needs.lasts ? view.number("for_s", 0.1, 864000) : view.number_or("for_s", 0, 864000, 0);
    fault.size = needs.sized ? view.number("size", needs.least, needs.most) : 0.0;
    fault.cell = static_cast<int>(view.number_or("cell", 0, 4, 0));
    return fault;
}

template <class Named>
bool knows(const std::vector<Named>& list, std::string Named::*name, const std::string& wanted) {
    for (const Named& entry : list) {
        if (entry.*name == wanted) return true;
    }
    return false;
}

// Names used by events, moves, trays and readings must exist; machines must be told apart.
void check_names(const TomlView& top, const Scenario& s) {
    std::set<std::string> ids;
    for (const ScenarioMachine& machine : s.machines) {
        if (ids.insert(machine.id).second) continue;
        top.refuse(top.need("machine", ""), "machine id '" + machine.id + "' stands twice",
                   "give each its own id");
    }
    const auto need_machine = [&](const std::string& id) {
        if (knows(s.machines, &ScenarioMachine::id, id)) return;
        top.refuse(top.table(), "machine '" + id + "' is not in this scenario",
                   "name one of the [[machine]] ids");
    };
    const auto need_field = [&](const std::string& name) {
        if (knows(s.fields, &ScenarioField::name, name)) return;
        top.refuse(top.table(), "field '" + name + "' is not in this scenario", "name one of the [[field]]s");
    };
    for (const ScenarioEvent& event : s.events) need_machine(event.machine);
    for (const ScenarioFault& fault : s.faults) {
        need_machine(fault.machine);
        for (const ScenarioMachine& machine : s.machines) {
            if (machine.id == fault.machine && fault.cell > machine.scale.cells) {
                top.refuse(top.table(),
                           "a fault is of cell " + std::to_string(fault.cell) + ", but '" + machine.id +
                               "' has " + fixed(machine.scale.cells, 0),
                           "give 0 for all cells, or one that it has");
            }
        }
    }
    for (const ScenarioTray& tray : s.trays) need_machine(tray.machine);
    for (const ScenarioMove& move : s.moves) need_field(move.to_field);
    for (const ScenarioMaturity& reading : s.maturity) {
        need_field(reading.field);
        for (const ScenarioField& field : s.fields) {
            if (field.name == reading.field && field.tenderometer <= 0.0 && reading.tenderometer <= 0.0) {
                top.refuse(top.table(),
                           "a reading of '" + field.name + "' has no tenderometer, nor has the field",
                           "give one of them 50 to 250");
            }
        }
    }
}

bool yes_or_no(const TomlView& view, const std::string& key, bool otherwise) {
    if (!view.has(key)) return otherwise;
    const toml::node& node = view.need(key, "");
    if (!node.is_boolean()) view.refuse(node, "'" + key + "' is neither true nor false", "give one of them");
    return *node.value<bool>();
}

void read_plan(const TomlView& top, Scenario& s) {
    s.plan_tph = top.number_or("plan_tph", 0, 200, s.plan_tph);
    s.plan_from_s = top.number_or("plan_from_s", 0, 864000, s.plan_from_s);
    s.plan_later_tph = top.number_or("plan_later_tph", 0, 200, s.plan_later_tph);
    s.plan_until_s = top.number_or("plan_until_s", 0, 864000, s.plan_until_s);
    s.thousand_pea_g = top.number_or("thousand_pea_g", 100, 1000, s.thousand_pea_g);
    s.tray_area_m2 = top.number_or("tray_area_m2", 0.05, 10, s.tray_area_m2);
    s.tray_count_cv = top.number_or("tray_count_cv", 0, 1, s.tray_count_cv);
}

}  // namespace

Scenario read_scenario(const std::filesystem::path& path, std::optional<std::uint64_t> seed) {
    const toml::table table = parse_toml(path);
    const TomlView top(table, path.string(), "");
    Scenario s;
    top.refuse_unknown_keys(
        {"label",       "date",           "time_zone",      "seed",           "start_unix_s",
         "hours",       "log_format",     "origin_lat_deg", "origin_lon_deg", "plan_tph",
         "plan_from_s", "plan_until_s", "plan_later_tph", "thousand_pea_g", "tray_area_m2",   "tray_count_cv",  "field",
         "machine",     "event",          "fault",          "move",           "tray_check",
         "maturity",    "shift",          "trailers",       "truth_apart",    "weather",        "truth_swath"});
    s.label = top.text("label", "\"A day in June\"");
    s.date = top.date("date");
    s.time_zone = read_time_zone(top);
    s.seed = seed.value_or(static_cast<std::uint64_t>(top.number("seed", 0, 1e15)));
    s.start_unix_s = static_cast<std::int64_t>(top.number("start_unix_s", 0, 4e9));
    s.hours = top.number("hours", 0.05, 72);
    s.origin.lat_deg = top.number("origin_lat_deg", -85, 85);
    s.origin.lon_deg = top.number("origin_lon_deg", -180, 180);
    const std::string format = top.text_or("log_format", "csv.zst");
    if (format != "csv.zst" && format != "csv") {
        top.refuse(top.need("log_format", ""), "log_format '" + format + "' is not known",
                   "give \"csv\" or \"csv.zst\"");
    }
    s.compressed = format == "csv.zst";
    s.truth_apart = yes_or_no(top, "truth_apart", s.truth_apart);
    s.truth_swath = yes_or_no(top, "truth_swath", s.truth_swath);
    read_plan(top, s);
    each_table(top, "field", [&](const TomlView& v) { s.fields.push_back(read_field(v, s.seed)); });
    each_table(top, "machine", [&](const TomlView& v) { s.machines.push_back(read_machine(v, s.seed)); });
    each_table(top, "event", [&](const TomlView& v) { s.events.push_back(read_event(v)); });
    each_table(top, "fault", [&](const TomlView& v) { s.faults.push_back(read_fault(v)); });
    each_table(top, "move", [&](const TomlView& v) {
        v.refuse_unknown_keys({"at_s", "to_field"});
        s.moves.push_back({v.number("at_s", 0, 864000), v.text("to_field", "\"Mill Piece\"")});
    });
    each_table(top, "tray_check", [&](const TomlView& v) {
        v.refuse_unknown_keys({"machine", "at_s"});
        s.trays.push_back({v.text("machine", "\"viner_1\""), v.number("at_s", 0, 864000)});
    });
    each_table(top, "maturity", [&](const TomlView& v) {
        v.refuse_unknown_keys({"field", "at_s", "tenderometer"});
        s.maturity.push_back({v.text("field", "\"Long Acre\""), v.number("at_s", -864000, 864000),
                              v.number_or("tenderometer", 50, 250, 0)});
    });
    each_table(top, "shift", [&](const TomlView& v) {
        v.refuse_unknown_keys({"at_s", "for_s"});
        s.shifts.push_back({v.number("at_s", 0, 864000), v.number_or("for_s", 10, 36000, 600)});
    });
    read_table(top, "trailers", kTrailerKeys, s.seed, s.trailers);
    if (top.has("weather")) read_table(top, "weather", kWeatherKeys, s.seed, s.weather.emplace());
    if (s.fields.empty()) top.refuse(table, "has no field", "add a [[field]] with name and corners_m");
    if (s.machines.empty() || s.machines.size() > 8)
        top.refuse(table, "needs 1 to 8 machines", "add [[machine]] with id");
    check_names(top, s);
    return s;
}

}  // namespace podrate::sim
