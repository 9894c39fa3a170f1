// Holds a replay against a synthetic day's truth.
#pragma once

#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "podrate/work/work_state.hpp"
#include "score/coverage.hpp"
#include "score/fault_score.hpp"
#include "score/loss_score.hpp"
#include "score/map_score.hpp"
#include "score/root_mean_square.hpp"

namespace podrate::sim {

// Windows of the plain method that everything is compared with: weight now less weight T seconds ago, over T.
inline constexpr std::array<int, 3> kDifferencing_s = {10, 30, 60};

struct DifferencingScore {
    RootMeanSquare differenced;  // kg/s, over seconds whose window holds no tip
    RootMeanSquare estimated;    // our flow over the same seconds
};

struct LoadScore {
    std::string machine;
    int number = 0;  // in the truth
    double true_kg = 0.0;
    double net_kg = 0.0;
    double net_sd_kg = 0.0;
    bool found = false;
};

struct MachineScore {
    std::string id;
    double true_harvested_kg = 0.0;
    double harvested_kg = 0.0;
    double true_area_m2 = 0.0;
    double area_m2 = 0.0;
    double true_lost_kg = 0.0;
    LossScore loss;
    RootMeanSquare flow;  // kg/s, over all seconds of truth
    double flow_error_sum_kgps = 0.0;
    RootMeanSquare bound;           // the posterior Cramer-Rao bound over the same seconds
    RootMeanSquare smoother_bound;  // the same with the future known too
    RootMeanSquare smoother;        // what the true model's smoother makes of the log
    std::array<DifferencingScore, kDifferencing_s.size()> differencing;
    long seconds = 0;
    long seconds_right = 0;                                           // work state as in the truth
    std::array<std::array<long, kWorkStates>, kWorkStates> states{};  // [truth][estimate], seconds
    Coverage mass_coverage;
    Coverage flow_coverage;
    Coverage yield_coverage;  // of the crop cut a dead time ago, while harvesting
    Coverage loss_coverage;   // while harvesting
    std::vector<FaultScore> faults;
    std::vector<WatchedSecond> watched;  // all seconds that were compared
    long rows_bad = 0;                   // by the log's reader
    double true_seen_kg = 0.0;           // harvested in truth over the seconds that were compared
    std::vector<LoadScore> loads;        // by the truth's order
    int loads_too_many = 0;              // loads that the truth does not have

    // Peas that stood where it cut: in truth, and as told.
    [[nodiscard]] double true_stood_kg() const { return true_harvested_kg + true_lost_kg; }
    [[nodiscard]] double stood_kg() const { return harvested_kg / (1.0 - std::min(loss.total.share, 0.99)); }
    [[nodiscard]] double harvested_error_share() const;
    [[nodiscard]] double state_share() const;
    [[nodiscard]] double bias_kgps() const {
        return seconds > 0 ? flow_error_sum_kgps / static_cast<double>(seconds) : 0.0;
    }
    [[nodiscard]] double over_smoother() const {
        return smoother.count > 0 ? flow.value() / smoother.value() : 0.0;
    }
    // Share of the loads, found or not, whose net is within `share` of the truth.
    [[nodiscard]] double loads_within(double share) const;
    // Our flow RMSE over the bound; 0 where there is none.
    [[nodiscard]] double over_bound() const { return bound.count > 0 ? flow.value() / bound.value() : 0.0; }
    // Our flow RMSE over the best differencing's, both over that window's seconds.
    [[nodiscard]] double best_ratio() const;
};

struct DayScore {
    std::vector<MachineScore> machines;
    std::optional<MapScore> map;
    // All machines as one: sums, and means over all seconds.
    [[nodiscard]] MachineScore total() const;
};

// `results` holds loads.csv, summary.json, estimates_ID.csv, yields_ID.csv and losses_ID.csv of a replay of
// `day_folder`; throws RefusedInput where something is missing.
DayScore score_day(const std::filesystem::path& results, const std::filesystem::path& day_folder);

// On all seconds of one machine: flow, states, intervals, loss, faults. `score_seconds.cpp`.
void score_seconds(const Machine& machine, const std::filesystem::path& results,
                   const std::filesystem::path& day_folder, MachineScore& score);

std::string score_text(const DayScore& score);
std::string score_json(const DayScore& score);

}  // namespace podrate::sim
