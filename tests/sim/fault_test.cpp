#include "synth/scenario/fault.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "log/column_reader.hpp"
#include "replay/day_replay.hpp"
#include "support/fault_cases.hpp"
#include "support/temp_folder.hpp"
#include "synth/synthesis.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::FaultCase;
using podrate::test::kFaultCases;
using podrate::test::TempFolder;

namespace {

constexpr const char* kScenario = R"(
label = "One fault"
date = 2025-07-02
seed = 11
start_unix_s = 1751428800
hours = 1.6
log_format = "csv"
origin_lat_deg = 52.6
origin_lon_deg = 2.9
[[field]]
name = "Saltings"
corners_m = [[0, 0], [420, 0], [420, 260], [0, 260]]
bout_heading_deg = 90
slope_deg = 3
[[machine]]
id = "viner_1"
)";

struct Outcome {
    MachineResult result;
    double true_kg = 0.0;
};

// Finite wherever it looked; what the machine had truly harvested by the log's last row.
class AllFinite : public ReplaySink {
  public:
    void on_row(const LogRow&, const Estimate& e) override {
        for (const Real value :
             {e.mass_kg, e.mass_sd_kg, e.flow_kgps, e.flow_sd_kgps, e.yield_kgpm2, e.loss_share, e.loss_low,
              e.loss_high, e.harvested_kg, e.harvested_sd_kg, e.area_m2}) {
            if (!std::isfinite(value)) finite = false;
        }
        if (!(e.mass_sd_kg >= Real(0)) || !(e.flow_sd_kgps >= Real(0))) finite = false;
    }
    bool finite = true;
};

// A full hopper or old peas are no word about a fault.
bool of_a_sensor(const AlarmEvent& event) {
    return event.alarm == AlarmId::weight_fault || event.alarm == AlarmId::speed_fault ||
           event.alarm == AlarmId::tilt_fault;
}

Outcome outcome_of(const FaultCase& c) {
    const TempFolder folder;
    std::string text = kScenario;
    if (c.cell > 0) text += "cells = 4\n";
    if (c.apart) text += "logged_as = \"cells\"\n";
    text += std::string("[[fault]]\nkind = \"") + c.kind +
            "\"\nmachine = \"viner_1\"\nat_s = " + std::to_string(c.at_s) +
            "\nfor_s = " + std::to_string(c.for_s) + "\nsize = " + std::to_string(c.size) +
            "\ncell = " + std::to_string(c.cell) + "\n";
    synthesise(read_scenario(folder.file("scenario.toml", text)), folder / "day", nullptr);
    const Day day = read_day(folder / "day");
    AllFinite sink;
    Outcome outcome;
    outcome.result = replay_machine(day.machines.front(), {&sink}, nullptr);
    REQUIRE(sink.finite);
    ColumnReader truth(folder / "day" / "truth" / "viner_1.csv", {"unix_s", "flow_kgps"});
    while (truth.next() && truth.number(0) * 1e6 <= static_cast<double>(outcome.result.last_us)) {
        outcome.true_kg += truth.number(1);
    }
    return outcome;
}

}  // namespace

TEST_CASE(
    "Under each single fault the total is right to 1 per cent, or the fault is told and the doubt is wide") {
    for (const FaultCase& c : kFaultCases) {
        const Outcome outcome = outcome_of(c);
        const MachineResult& result = outcome.result;
        REQUIRE(result.usable);
        const auto harvested_kg = static_cast<double>(result.last.harvested_kg);
        const auto sd_kg = static_cast<double>(result.last.harvested_sd_kg);
        const double error_kg = harvested_kg - outcome.true_kg;
        const auto sensor_alarms = std::count_if(result.alarms.begin(), result.alarms.end(), of_a_sensor);
        const bool told = sensor_alarms > 0 || result.problems.faults() > 0;
        INFO(c.kind << " of " << c.size << " for " << c.for_s << " s: harvested " << harvested_kg << " kg +- "
                    << sd_kg << ", truth " << outcome.true_kg << ", sensor alarms " << sensor_alarms
                    << ", problems " << result.problems.faults());
        CHECK((std::abs(error_kg) <= 0.01 * outcome.true_kg || (told && std::abs(error_kg) <= 3.0 * sd_kg)));
    }
}

TEST_CASE("A scenario's faults are known by name and refused otherwise") {
    for (int i = 0; i < kFaultKinds; ++i) CHECK(std::string(name_of(static_cast<FaultKind>(i))).size() > 4);
    const TempFolder folder;
    const auto file =
        folder.file("s.toml", std::string(kScenario) +
                                  "[[fault]]\nkind = \"gremlins\"\nmachine = \"viner_1\"\nat_s = 1\n");
    CHECK_THROWS_WITH(read_scenario(file), Catch::Contains("gremlins") && Catch::Contains("weight_stuck"));
}

TEST_CASE("A fault holds from its beginning to its end and begins once") {
    const std::vector<ScenarioFault> all = {{FaultKind::weight_stuck, "a", 10.0, 5.0, 0.0}};
    const Faults faults(all, "a");
    CHECK(faults.active(FaultKind::weight_stuck, 9.9) == nullptr);
    CHECK(faults.active(FaultKind::weight_stuck, 10.0) != nullptr);
    CHECK(faults.active(FaultKind::weight_stuck, 15.0) == nullptr);
    CHECK(faults.active(FaultKind::speed_zero, 12.0) == nullptr);
    CHECK(faults.begun(FaultKind::weight_stuck, 99.0) != nullptr);
    int begins = 0;
    for (int i = 0; i < 300; ++i)
        begins += faults.begins(FaultKind::weight_stuck, 0.1 * i, 0.1) != nullptr ? 1 : 0;
    CHECK(begins == 1);
    CHECK(Faults(all, "b").begun(FaultKind::weight_stuck, 99.0) == nullptr);
}
