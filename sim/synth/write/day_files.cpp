#include "synth/write/day_files.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "geo/local_frame.hpp"
#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "synth/random.hpp"
#include "synth/scenario/number_keys.hpp"

namespace podrate::sim {
namespace {

constexpr double kPlanStepS = 900.0;
constexpr double kSurgeShownS = 24.0;  // until a cleared drum has let all go

double unix_s(const Scenario& scenario, double at_s) {
    return static_cast<double>(scenario.start_unix_s) + at_s;
}

// Text of a TOML basic string.
std::string quoted(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        out += c;
    }
    return out + '"';
}

}  // namespace

std::string log_name(const Scenario& scenario, const ScenarioMachine& machine) {
    return machine.id + (scenario.compressed ? ".csv.zst" : ".csv");
}

std::vector<ToldNumber> told_numbers(const ScenarioMachine& m) {
    std::vector<ToldNumber> told = {{"width_m", m.width_m, 2},
                                    {"hopper_capacity_kg", m.hopper_capacity_kg, 0},
                                    {"drum_dead_time_s", m.told_dead_time_s, 1},
                                    {"drum_lag_s", m.told_lag_s, 1}};
    if (m.told_wanted_tph > 0.0) told.push_back({"wanted_rate_kgps", m.told_wanted_tph / kTphPerKgps, 3});
    return told;
}

std::string day_toml_text(const Scenario& s) {
    std::string text = "# A synthetic day: every person, farm and place in it is invented.\n";
    text +=
        "label = " + quoted(s.label) + "\ndate = " + s.date + "\ntime_zone = " + quoted(s.time_zone) + "\n";
    for (const ScenarioMachine& m : s.machines) {
        text += "\n[[machine]]\nid = " + quoted(m.id) + "\nlog = " + quoted(log_name(s, m));
        text += '\n';
        for (const ToldNumber& number : told_numbers(m))
            text += std::string(number.key) + " = " + fixed(number.value, number.decimals) + '\n';
        text += m.told_besides;
    }
    return text;
}

std::string fields_geojson_text(const Scenario& s) {
    using Json = nlohmann::ordered_json;
    const LocalFrame frame(s.origin);
    Json features = Json::array();
    for (const ScenarioField& field : s.fields) {
        Json ring = Json::array();
        const auto add = [&](EastNorth corner) {
            const LatLon place = frame.to_lat_lon(corner);
            ring.push_back(
                {parse_number(fixed(place.lon_deg, 7)).value, parse_number(fixed(place.lat_deg, 7)).value});
        };
        for (const EastNorth& corner : field.corners) add(corner);
        add(field.corners.front());
        Json properties = {{"name", field.name}, {"crop", "vining peas"}};
        if (!field.sown.empty()) properties["sown"] = field.sown;
        if (field.target_tenderometer > 0.0) properties["target_tenderometer"] = field.target_tenderometer;
        features.push_back({{"type", "Feature"},
                            {"properties", properties},
                            {"geometry", {{"type", "Polygon"}, {"coordinates", Json::array({ring})}}}});
    }
    const Json collection = {{"type", "FeatureCollection"}, {"features", features}};
    return collection.dump(1) + '\n';
}

std::string intake_plan_text(const Scenario& s) {
    std::string text = "unix_s,planned_t\n";
    const double logs_end_s = s.hours * 3600.0;
    const double end_s = std::max(logs_end_s, s.plan_until_s);
    const double later_tph = s.plan_later_tph > 0.0 ? s.plan_later_tph : s.plan_tph;
    std::set<double> moments = {s.plan_from_s, logs_end_s, end_s};
    for (double at_s = s.plan_from_s; at_s < end_s; at_s = (std::floor(at_s / kPlanStepS) + 1.0) * kPlanStepS)
        moments.insert(at_s);
    for (const double at_s : moments) {
        const double before_s = std::max(0.0, std::min(at_s, logs_end_s) - s.plan_from_s);
        const double later_s = std::max(0.0, at_s - std::max(logs_end_s, s.plan_from_s));
        text += fixed(unix_s(s, at_s), 0) + ',' +
                fixed(before_s / 3600.0 * s.plan_tph + later_s / 3600.0 * later_tph, 2) + '\n';
    }
    return text;
}

std::string tray_checks_text(const Scenario& s, const std::vector<LaidTray>& trays) {
    Random of_named(s.seed, "trays");
    std::map<std::string, Random> of_others;  // their own, so that they leave the named ones' counts alone
    std::string text = "unix_s,machine,count,area_m2,thousand_pea_g\n";
    for (const LaidTray& tray : trays) {
        Random& random =
            tray.named ? of_named
                       : of_others.try_emplace(tray.machine, s.seed, "counts " + tray.machine).first->second;
        const double expected = tray.lost_kgpm2 * s.tray_area_m2 / (s.thousand_pea_g * 1e-6);
        const double count = std::max(0.0, std::round(expected * (1.0 + s.tray_count_cv * random.normal())));
        text += fixed(unix_s(s, tray.at_s), 0) + ',' + tray.machine + ',' + fixed(count, 0) + ',' +
                fixed(s.tray_area_m2, 2) + ',' + fixed(s.thousand_pea_g, 0) + '\n';
    }
    return text;
}

std::string true_loads_text(const Scenario& s, const std::vector<const VinerWorks*>& viners) {
    std::string text = "machine,load,start_unix_s,end_unix_s,net_kg\n";
    for (std::size_t i = 0; i < viners.size(); ++i) {
        int number = 0;
        for (const TrueLoad& load : viners[i]->loads()) {
            text += s.machines[i].id + ',' + std::to_string(++number) + ',' +
                    fixed(unix_s(s, load.start_s), 1) + ',' + fixed(unix_s(s, load.end_s), 1) + ',' +
                    fixed(load.net_kg, 2) + '\n';
        }
    }
    return text;
}

std::string true_totals_text(const Scenario& s, const std::vector<const VinerWorks*>& viners) {
    std::string text = "machine,harvested_kg,area_m2,lost_kg\n";
    for (std::size_t i = 0; i < viners.size(); ++i) {
        const VinerTruth& truth = viners[i]->truth();
        text += s.machines[i].id + ',' + fixed(truth.harvested_kg, 2) + ',' + fixed(truth.area_m2, 1) + ',' +
                fixed(truth.lost_kg, 2) + '\n';
    }
    return text;
}

std::string true_model_text(const Scenario& s) {
    using Json = nlohmann::ordered_json;
    const auto write = [](Json& into, const auto& keys, const auto& from) {
        for (const auto& key : keys) into[key.name] = from.*key.member;
    };
    Json machines = Json::array();
    for (const ScenarioMachine& m : s.machines) {
        Json machine = {{"id", m.id}};
        write(machine, kDrumKeys, m.drum);
        write(machine, kScaleKeys, m.scale);
        write(machine, kSensesKeys, m.senses);
        if (m.hits.per_kg > 0.0) write(machine, kHitsKeys, m.hits);
        machines.push_back(machine);
    }
    Json fields = Json::array();
    for (const ScenarioField& f : s.fields) {
        Json field = {{"name", f.name}};
        write(field, kFieldKeys, f);
        fields.push_back(field);
    }
    return Json({{"machines", machines},
                 {"fields", fields},
                 {"origin_lat_deg", s.origin.lat_deg},
                 {"origin_lon_deg", s.origin.lon_deg}})
               .dump(1) +
           '\n';
}

std::string true_faults_text(const Scenario& s) {
    std::string text = "machine,kind,cell,start_unix_s,end_unix_s,size\n";
    for (const ScenarioFault& f : s.faults) {
        const double lasts_on_s = f.kind == FaultKind::drum_blocked ? kSurgeShownS : 0.0;
        text += f.machine + ',' + name_of(f.kind) + ',' + std::to_string(f.cell) + ',' +
                fixed(unix_s(s, f.at_s), 1) + ',' + fixed(unix_s(s, f.at_s + f.for_s + lasts_on_s), 1) + ',' +
                fixed(f.size, 3) + '\n';
    }
    return text;
}

std::string true_deliveries_text(const Scenario& s, std::vector<Delivery> deliveries) {
    std::sort(deliveries.begin(), deliveries.end(),
              [](const Delivery& a, const Delivery& b) { return a.at_s < b.at_s; });
    std::string text = "unix_s,peas_kg\n";
    for (const Delivery& d : deliveries) {
        if (d.at_s > s.hours * 3600.0) continue;
        text += fixed(unix_s(s, d.at_s), 0) + ',' + fixed(d.peas_kg, 1) + '\n';
    }
    return text;
}

}  // namespace podrate::sim
