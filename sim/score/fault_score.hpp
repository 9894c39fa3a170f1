// How soon a fault was told, and how long its trace stayed.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace podrate::sim {

// One second of a replay, as far as faults are concerned.
struct WatchedSecond {
    double unix_s = 0.0;
    double flow_error_kgps = 0.0;
    double flow_sd_kgps = 0.0;
    bool alarm = false;
};

// kg/s: an empty drum's flow is stated closer than anybody asks.
inline constexpr double kLeastFlowSd_kgps = 0.03;

// How far a flow was off in one second, in standard deviations.
struct FlowOff {
    double unix_s = 0.0;
    double sds = 0.0;
};

// How long after `end_unix_s` half a minute began whose root mean square is at most `most_sds`: negative
// where none did within five minutes, 0 where the log ended first.
double settled_after_s(const std::vector<FlowOff>& off, double end_unix_s, double most_sds);

struct FaultScore {
    std::string kind;
    double start_unix_s = 0.0;
    double end_unix_s = 0.0;
    bool told = false;          // a sensor fault came up between its start and 5 min after its end
    double told_after_s = 0.0;  // after its start
    // After its end: from when on the flow's error over half a minute was no more than twice what was stated;
    // negative where that never came within five minutes.
    double settled_after_s = 0.0;
};

// Those of truth/faults.csv for that machine.
std::vector<FaultScore> score_faults(const std::filesystem::path& day_folder, const std::string& machine,
                                     const std::vector<WatchedSecond>& seconds);

}  // namespace podrate::sim
