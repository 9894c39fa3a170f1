#include "score/fault_score.hpp"

#include <algorithm>
#include <cmath>

#include "log/column_reader.hpp"
#include "synth/scenario/fault.hpp"

namespace podrate::sim {
namespace {

constexpr double kWatchS = 300.0;  // after the fault's end
constexpr double kWindowS = 30.0;
constexpr double kMostSds = 2.0;
constexpr double kLeastSd = 0.03;  // kg/s: an empty drum's flow is stated closer than anybody asks

// Root mean square of the flow's error against what was stated, from `from` on.
double sds_off(const std::vector<WatchedSecond>& seconds, std::size_t from) {
    double sum = 0.0;
    long count = 0;
    for (std::size_t i = from; i < seconds.size() && seconds[i].unix_s < seconds[from].unix_s + kWindowS;
         ++i) {
        const double sds = seconds[i].flow_error_kgps / std::max(seconds[i].flow_sd_kgps, kLeastSd);
        sum += sds * sds;
        ++count;
    }
    return std::sqrt(sum / static_cast<double>(count));
}

double settled_after_s(const std::vector<WatchedSecond>& seconds, double end_unix_s) {
    for (std::size_t i = 0; i < seconds.size(); ++i) {
        const double after_s = seconds[i].unix_s - end_unix_s;
        if (after_s < 0.0) continue;
        if (after_s > kWatchS) return -1.0;
        if (sds_off(seconds, i) <= kMostSds) return after_s;
    }
    return 0.0;  // the log ended first
}

}  // namespace

std::vector<FaultScore> score_faults(const std::filesystem::path& day_folder, const std::string& machine,
                                     const std::vector<WatchedSecond>& seconds) {
    std::vector<FaultScore> scores;
    const std::filesystem::path file = day_folder / "truth" / "faults.csv";
    if (!std::filesystem::exists(file)) return scores;
    ColumnReader truth(file, {"machine", "kind", "start_unix_s", "end_unix_s", "size"});
    while (truth.next()) {
        if (truth.text(0) != machine) continue;
        FaultScore& score = scores.emplace_back();
        score.kind = truth.text(1);
        score.start_unix_s = truth.number(2);
        score.end_unix_s = truth.number(3);
        // A clock put back makes a reader refuse the rows until it has come up again.
        if (score.kind == name_of(FaultKind::clock_jump) && truth.number(4) < 0.0)
            score.end_unix_s -= truth.number(4);
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
        score.settled_after_s = settled_after_s(seconds, score.end_unix_s);
    }
    return scores;
}

}  // namespace podrate::sim
