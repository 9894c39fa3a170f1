#include "synth/write/made_day.hpp"

#include <algorithm>

#include "report/output_file.hpp"
#include "synth/write/maturity_texts.hpp"

namespace podrate::sim {
namespace {

void write_machine(const Scenario& scenario, const ScenarioMachine& machine, const MachineRecord& record,
                   const std::filesystem::path& out) {
    write_file(out / log_name(scenario, machine),
               scenario.compressed ? compressed(record.log_text()) : record.log_text());
    write_file(out / "truth" / (machine.id + ".csv"), record.truth_text());
}

void write_small_files(const Scenario& scenario, const Gang& gang, const MadeDay& made,
                       const std::filesystem::path& out) {
    write_file(out / "day.toml", day_toml_text(scenario));
    write_file(out / "fields.geojson", fields_geojson_text(scenario));
    if (!made.trays.empty()) write_file(out / "tray_checks.csv", tray_checks_text(scenario, made.trays));
    if (!scenario.maturity.empty()) write_file(out / "maturity.csv", maturity_text(scenario, gang.crops()));
    if (scenario.weather) {
        const TrueWeather weather = true_weather(scenario);
        write_file(out / "weather.csv", weather_text(weather.told));
        write_file(out / "truth" / "weather.csv", weather_text(weather.happened));
        const bool ripens =
            std::any_of(scenario.fields.begin(), scenario.fields.end(),
                        [](const ScenarioField& f) { return f.ripening_pct_per_heat_unit > 0.0; });
        if (ripens) write_file(out / "truth" / "maturity.csv", true_maturity_text(scenario, gang.crops()));
    }
    if (scenario.plan_tph > 0.0) write_file(out / "intake_plan.csv", intake_plan_text(scenario));
    write_file(out / "truth" / "model.json", true_model_text(scenario));
    write_file(out / "truth" / "faults.csv", true_faults_text(scenario));
    if (gang.trailers().any()) {
        write_file(out / "truth" / "deliveries.csv",
                   true_deliveries_text(scenario, gang.trailers().deliveries()));
    }
    write_file(out / "truth" / "loads.csv", true_loads_text(scenario, made.works));
    write_file(out / "truth" / "totals.csv", true_totals_text(scenario, made.works));
}

}  // namespace

void write_made_day(const Scenario& scenario, const Gang& gang, const MadeDay& made,
                    const std::filesystem::path& out) {
    make_folder(out / "truth");
    for (std::size_t i = 0; i < scenario.machines.size(); ++i)
        write_machine(scenario, scenario.machines[i], *made.records[i], out);
    write_small_files(scenario, gang, made, out);
}

}  // namespace podrate::sim
