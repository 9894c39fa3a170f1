#include "synth/synthesis.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "report/output_file.hpp"
#include "synth/machine/gang.hpp"
#include "synth/machine/viner.hpp"
#include "synth/sense/row_clock.hpp"
#include "synth/sense/sensors.hpp"
#include "synth/write/day_files.hpp"
#include "synth/write/log_writer.hpp"
#include "synth/write/maturity_texts.hpp"
#include "synth/write/tray_layer.hpp"

namespace podrate::sim {
namespace {

constexpr int kStepsPerSecond = 10;
constexpr double kStepS = 1.0 / kStepsPerSecond;
constexpr double kSameS = 1e-9;

// One machine's day in the making.
struct Record {
    Sensors sensors;
    LogWriter log;
    TruthWriter truth;
    RowClock clock;
    VinerTruth before;  // the truth a step ago
    double last_row_s = 0.0;
};

// The truth between two steps: what runs on evenly runs on, the rest is as at the later one.
VinerTruth truth_between(const VinerTruth& before, const VinerTruth& after, double share) {
    VinerTruth truth = after;
    const auto between = [share](double a, double b) { return a + share * (b - a); };
    truth.mass_kg = between(before.mass_kg, after.mass_kg);
    truth.speed_mps = between(before.speed_mps, after.speed_mps);
    truth.pose.place.east_m = between(before.pose.place.east_m, after.pose.place.east_m);
    truth.pose.place.north_m = between(before.pose.place.north_m, after.pose.place.north_m);
    return truth;
}

// The rows that fall into the step that ends at `time_s`.
void write_rows(Record& record, const Scenario& scenario, const VinerTruth& now, double time_s) {
    record.sensors.follow(time_s, now, kStepS);
    for (double row_s = record.clock.next_s(); row_s <= time_s + kSameS; row_s = record.clock.next_s()) {
        const double share = time_s > 0.0 ? 1.0 - std::max(time_s - row_s, 0.0) / kStepS : 1.0;
        const VinerTruth truth = share > 1.0 - kSameS ? now : truth_between(record.before, now, share);
        const double dt_s = row_s > record.last_row_s ? row_s - record.last_row_s : kStepS;
        record.sensors.sense(row_s, truth, scenario.fields[truth.field], dt_s);
        record.log.add(row_s, truth, record.sensors);
        record.last_row_s = row_s;
        record.clock.advance();
    }
    record.before = now;
}

void write_machine(const Scenario& scenario, const ScenarioMachine& machine, const Record& record,
                   const std::filesystem::path& out) {
    write_file(out / log_name(scenario, machine),
               scenario.compressed ? compressed(record.log.text()) : record.log.text());
    write_file(out / "truth" / (machine.id + ".csv"), record.truth.text());
}

void write_small_files(const Scenario& scenario, const Gang& gang, const std::vector<Viner>& viners,
                       const std::vector<LaidTray>& trays, const std::filesystem::path& out) {
    write_file(out / "day.toml", day_toml_text(scenario));
    write_file(out / "fields.geojson", fields_geojson_text(scenario));
    if (!trays.empty()) write_file(out / "tray_checks.csv", tray_checks_text(scenario, trays));
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
    write_file(out / "truth" / "loads.csv", true_loads_text(scenario, viners));
    write_file(out / "truth" / "totals.csv", true_totals_text(scenario, viners));
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
        viners.emplace_back(scenario, machine, i, kStepS, gang);
        records.push_back({Sensors(scenario, machine),
                           LogWriter(scenario, machine),
                           TruthWriter(scenario),
                           RowClock(scenario, machine),
                           {}});
    }
    TrayLayer trays(scenario);
    const auto steps = static_cast<long>(std::lround(scenario.hours * 3600.0 * kStepsPerSecond));
    for (long step = 0; step < steps; ++step) {
        const double time_s = static_cast<double>(step) / kStepsPerSecond;
        gang.update(time_s);
        for (std::size_t i = 0; i < viners.size(); ++i) {
            viners[i].step(time_s, gang);
            const VinerTruth& truth = viners[i].truth();
            Record& record = records[i];
            const bool whole_second = step % kStepsPerSecond == 0;
            trays.pass(i, time_s, truth, whole_second);
            if (whole_second) record.truth.add(time_s, truth);
            write_rows(record, scenario, truth, time_s);
        }
        if (progress && step % 2000 == 0) progress(static_cast<double>(step) / static_cast<double>(steps));
    }
    for (std::size_t i = 0; i < viners.size(); ++i)
        write_machine(scenario, scenario.machines[i], records[i], out);
    write_small_files(scenario, gang, viners, trays.laid(), out);
}

}  // namespace podrate::sim
