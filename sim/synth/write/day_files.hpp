// The small files of a synthetic day: day.toml, fields, plan, checks, true loads and totals.
#pragma once

#include <string>
#include <vector>

#include "synth/machine/trailers.hpp"
#include "synth/machine/viner_works.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// A tray laid behind a machine: peas lost there.
struct LaidTray {
    std::string machine;
    double at_s = 0.0;
    double lost_kgpm2 = 0.0;
    bool named = true;  // by the scenario; else one of trays_per_h
};

// A number that day.toml tells of a machine.
struct ToldNumber {
    const char* key;
    double value;
    int decimals;
};
std::vector<ToldNumber> told_numbers(const ScenarioMachine& machine);

std::string day_toml_text(const Scenario& scenario);
std::string fields_geojson_text(const Scenario& scenario);
std::string intake_plan_text(const Scenario& scenario);
// Counts with the scenario's counting error.
std::string tray_checks_text(const Scenario& scenario, const std::vector<LaidTray>& trays);
std::string true_loads_text(const Scenario& scenario, const std::vector<const VinerWorks*>& viners);
std::string true_totals_text(const Scenario& scenario, const std::vector<const VinerWorks*>& viners);

// What the plant was: each machine's drum and weight noise, each field's crop, by the scenario's keys.
std::string true_model_text(const Scenario& scenario);
std::string true_faults_text(const Scenario& scenario);
std::string true_deliveries_text(const Scenario& scenario, std::vector<Delivery> deliveries);

std::string log_name(const Scenario& scenario, const ScenarioMachine& machine);

}  // namespace podrate::sim
