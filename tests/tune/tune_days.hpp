// Short synthetic days to tune alarms on.
#pragma once

#include <filesystem>
#include <string>

#include "replay/machine_replay.hpp"
#include "support/temp_folder.hpp"
#include "synth/scenario/scenario.hpp"
#include "synth/synthesis.hpp"
#include "tune/alarm_trace.hpp"

namespace podrate::test {

// An hour of a viner that is driven hard, with a loss sensor: the loss is over its limit now and then, the
// hopper fills, the drum blocks and the scale sticks.
inline std::filesystem::path write_tune_day(const TempFolder& folder, const std::string& name, int seed,
                                            double hours = 1.0) {
    const std::string text = "label = \"Tuned on, day " + name +
                             "\"\ndate = 2025-07-02\nseed = " + std::to_string(seed) +
                             "\nhours = " + std::to_string(hours) + R"(
start_unix_s = 1751428800
log_format = "csv"
origin_lat_deg = 52.6
origin_lon_deg = 2.9
[[field]]
name = "Saltings"
corners_m = [[0, 0], [420, 0], [420, 260], [0, 260]]
bout_heading_deg = 90
crop_kgpm2 = 0.55
crop_cv = 0.34
[[machine]]
id = "viner_1"
speed_mps = 1.0
speed_spread = 0.2
drum_loss_share = 0.11
hits_per_kg = 200
told_wanted_tph = 5
[[fault]]
kind = "drum_blocked"
machine = "viner_1"
at_s = 900
for_s = 60
[[fault]]
kind = "weight_stuck"
machine = "viner_1"
at_s = 2000
for_s = 120
)";
    const std::filesystem::path day = folder / name;
    sim::synthesise(sim::read_scenario(folder.file(name + ".toml", text)), day, nullptr);
    return day;
}

// A machine's replay with its trace.
inline sim::MachineResult traced_replay(const sim::Machine& machine, sim::AlarmTrace& trace) {
    return sim::replay_machine(machine, {&trace}, nullptr);
}

}  // namespace podrate::test
