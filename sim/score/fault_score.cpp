#include "score/fault_score.hpp"

#include <algorithm>
#include <cmath>

#include "score/true_faults.hpp"

namespace podrate::sim {
namespace {

constexpr double kWatchS = 300.0;  // after the fault's end
constexpr double kWindowS = 30.0;
constexpr double kMostSds = 2.0;

}  // namespace

double settled_after_s(const std::vector<FlowOff>& off, double end_unix_s, double most_sds) {
    for (std::size_t i = 0; i < off.size(); ++i) {
        const double after_s = off[i].unix_s - end_unix_s;
        if (after_s < 0.0) continue;
        if (after_s > kWatchS) return -1.0;
        double sum = 0.0;
        int count = 0;
        for (std::size_t k = i; k < off.size() && off[k].unix_s < off[i].unix_s + kWindowS; ++k, ++count)
            sum += off[k].sds * off[k].sds;
        if (std::sqrt(sum / count) <= most_sds) return after_s;
    }
    return 0.0;  // the log ended first
}

std::vector<FaultScore> score_faults(const std::filesystem::path& day_folder, const std::string& machine,
                                     const std::vector<WatchedSecond>& seconds) {
    std::vector<FaultScore> scores;
    std::vector<FlowOff> off;
    for (const WatchedSecond& second : seconds)
        off.push_back(
            {second.unix_s, second.flow_error_kgps / std::max(second.flow_sd_kgps, kLeastFlowSd_kgps)});
    for (const TrueFault& fault : read_true_faults(day_folder, machine)) {
        FaultScore& score = scores.emplace_back();
        score.kind = name_of(fault.kind);
        score.start_unix_s = fault.start_unix_s;
        score.end_unix_s = fault.end_unix_s;
        // A clock put back makes a reader refuse the rows until it has come up again.
        if (fault.kind == FaultKind::clock_jump && fault.size < 0.0) score.end_unix_s -= fault.size;
        bool alarm_before = false;
        for (const WatchedSecond& second : seconds) {
            const bool rises = second.alarm && !alarm_before;
            alarm_before = second.alarm;
            if (second.unix_s < score.start_unix_s || second.unix_s > score.end_unix_s + kWatchS) continue;
            if (rises && !score.told) {
                score.told = true;
                score.told_after_s = second.unix_s - score.start_unix_s;
            }
        }
        score.settled_after_s = settled_after_s(off, score.end_unix_s, kMostSds);
    }
    return scores;
}

}  // namespace podrate::sim
