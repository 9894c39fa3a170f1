#include "synth/hand/training_scenario.hpp"

#include <algorithm>
#include <charconv>
#include <string_view>

#include "log/number.hpp"
#include "log/units.hpp"
#include "synth/write/day_files.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source.
ScenarioField training_field() {
    ScenarioField field;
    field.name = "Lapwing Piece";
    field.corners = {{0.0, 0.0}, {340.0, 0.0}, {340.0, 210.0}, {0.0, 210.0}};
    field.bout_heading_deg = 90.0;
    field.crop_cv = 0.16;
    field.crop_length_m = 30.0;
    field.patch_cv = 0.25;
    field.lodged_share = 0.06;
    field.slope_deg = 2.0;
    field.downhill_deg = 150.0;
    field.sown = "2025-03-29";
    return field;
}

ScenarioMachine training_machine(const Parameters& parameters) {
    ScenarioMachine machine;
    machine.id = "sim_viner";
    machine.cells_apart = true;
    machine.width_m = static_cast<double>(parameters.width_m);
    machine.overlap_m = 0.05;
    machine.hopper_capacity_kg = static_cast<double>(parameters.hopper_capacity_kg);
    machine.told_dead_time_s = static_cast<double>(parameters.drum_dead_time_s);
    machine.told_lag_s = static_cast<double>(parameters.drum_lag_s);
    machine.told_wanted_tph = static_cast<double>(parameters.wanted_rate_kgps) * kTphPerKgps;
    machine.drum.dead_time_s = 5.7;
    machine.drum.lag_s = 8.3;
    machine.drum.load_share = 0.04;
    machine.scale.cells = 4.0;
    machine.scale.gain_sd = 0.0005;
    machine.scale.cell_zero_sd_kg = 4.0;
    machine.scale.zero_kg = 6.0;
    machine.scale.bounce_kg = 2.0;
    machine.hits.per_kg = 140.0;
    machine.hits.false_per_kg = 0.05;
    return machine;
}

std::string shortest(Real value) {
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value);
    return {text, end.ptr};
}

}  // namespace

Parameters told_parameters(const ScenarioMachine& machine, const Parameters& given) {
    Parameters told = given;
    for (const ToldNumber& number : told_numbers(machine)) {
        for (const ParameterInfo& info : kParameterTable) {
            if (std::string_view(info.name) == number.key)
                told.*info.member =
                    static_cast<Real>(parse_number(fixed(number.value, number.decimals)).value);
        }
    }
    return told;
}

Scenario training_scenario(std::uint64_t seed, const Parameters& parameters) {
    Scenario scenario;
    scenario.label = "Simulator";
    scenario.date = "2025-06-30";
    scenario.time_zone = "Etc/UTC";
    scenario.seed = seed;
    scenario.start_unix_s = 1751292000;  // 14:00 of that day
    scenario.compressed = false;
    scenario.truth_apart = true;
    scenario.truth_swath = true;
    scenario.origin = {52.6, 2.9};
    scenario.fields = {training_field()};
    ScenarioMachine machine = training_machine(parameters);
    const std::vector<ToldNumber> told = told_numbers(machine);
    for (const ParameterInfo& info : kParameterTable) {
        const bool is_told = std::any_of(told.begin(), told.end(), [&info](const ToldNumber& number) {
            return std::string_view(info.name) == number.key;
        });
        const Real value = parameters.*info.member;
        if (!is_told && value != static_cast<Real>(info.value))
            machine.told_besides += info.name + (" = " + shortest(value)) + '\n';
    }
    scenario.machines = {machine};
    return scenario;
}

}  // namespace podrate::sim
