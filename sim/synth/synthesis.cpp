#include "synth/synthesis.hpp"

#include <cmath>
#include <vector>

#include "report/output_file.hpp"
#include "synth/day_files.hpp"
#include "synth/gang.hpp"
#include "synth/log_writer.hpp"
#include "synth/sensors.hpp"
#include "synth/viner.hpp"

namespace podrate::sim {
namespace {

constexpr int kStepsPerSecond = 10;
constexpr double kStepS = 1.0 / kStepsPerSecond;

// One machine's day in the making.
struct Record {
    Sensors sensors;
    LogWriter log;
    TruthWriter truth;
    int steps_per_row;
};

void write_machine(const Scenario& scenario, const ScenarioMachine& machine, const Record& record,
                   const std::filesystem::path& out) {
    write_file(out / log_name(scenario, machine),
               scenario.compressed ? compressed(record.log.text()) : record.log.text());
    write_file(out / "truth" / (machine.id + ".csv"), record.truth.text());
}

void write_small_files(const Scenario& scenario, const std::vector<Viner>& viners,
                       const std::vector<LaidTray>& trays, const std::filesystem::path& out) {
    write_file(out / "day.toml", day_toml_text(scenario));
    write_file(out / "fields.geojson", fields_geojson_text(scenario));
    if (!trays.empty()) write_file(out / "tray_checks.csv", tray_checks_text(scenario, trays));
    if (!scenario.maturity.empty()) write_file(out / "maturity.csv", maturity_text(scenario));
    if (scenario.plan_tph > 0.0) write_file(out / "intake_plan.csv", intake_plan_text(scenario));
    write_file(out / "truth" / "model.json", true_model_text(scenario));
    write_file(out / "truth" / "loads.csv", true_loads_text(scenario, viners));
    write_file(out / "truth" / "totals.csv", true_totals_text(scenario, viners));
}

// Trays whose time has come are laid behind the machine, once it is cutting.
void lay_trays(std::vector<ScenarioTray>& waiting, const std::string& machine, const VinerTruth& truth,
               double time_s, std::vector<LaidTray>& laid) {
    for (std::size_t i = 0; i < waiting.size(); ++i) {
        if (waiting[i].machine != machine || time_s < waiting[i].at_s || truth.lost_kgpm2 <= 0.0) continue;
        laid.push_back({machine, time_s, truth.lost_kgpm2});
        waiting.erase(waiting.begin() + static_cast<std::ptrdiff_t>(i));
        return;
    }
}

}  // namespace

void synthesise(const Scenario& scenario, const std::filesystem::path& out,
                const std::function<void(double)>& progress) {
    make_folder(out / "truth");
    Gang gang(scenario);
    std::vector<Viner> viners;
    std::vector<Record> records;
    for (std::size_t i = 0; i < scenario.machines.size(); ++i) {
        const ScenarioMachine& machine = scenario.machines[i];
        viners.emplace_back(scenario, machine, i, kStepS);
        records.push_back({Sensors(scenario, machine), LogWriter(scenario, machine), TruthWriter(scenario),
                           kStepsPerSecond / machine.rate_hz});
    }
    std::vector<ScenarioTray> trays = scenario.trays;
    std::vector<LaidTray> laid;
    const auto steps = static_cast<long>(std::lround(scenario.hours * 3600.0 * kStepsPerSecond));
    for (long step = 0; step < steps; ++step) {
        const double time_s = static_cast<double>(step) / kStepsPerSecond;
        gang.update(time_s);
        for (std::size_t i = 0; i < viners.size(); ++i) {
            viners[i].step(time_s, gang);
            const VinerTruth& truth = viners[i].truth();
            Record& record = records[i];
            lay_trays(trays, scenario.machines[i].id, truth, time_s, laid);
            if (step % kStepsPerSecond == 0) record.truth.add(time_s, truth);
            if (step % record.steps_per_row != 0) continue;
            record.sensors.sense(time_s, truth, scenario.fields[truth.field], kStepS * record.steps_per_row);
            record.log.add(time_s, truth, record.sensors);
        }
        if (progress && step % 2000 == 0) progress(static_cast<double>(step) / static_cast<double>(steps));
    }
    for (std::size_t i = 0; i < viners.size(); ++i)
        write_machine(scenario, scenario.machines[i], records[i], out);
    write_small_files(scenario, viners, laid, out);
}

}  // namespace podrate::sim
