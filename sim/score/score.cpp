#include "score/score.hpp"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "log/column_reader.hpp"
#include "log/log_reader.hpp"
#include "score/true_plant.hpp"

namespace podrate::sim {
namespace {

constexpr double kSameMomentS = 0.051;
constexpr double kSameLoadS = 60.0;
constexpr double kReach90 = 1.6448536;
constexpr long kNoTip = -1000000;

int state_index(std::string_view name, const std::filesystem::path& file) {
    for (int i = 0; i < kWorkStates; ++i) {
        if (name == name_of(static_cast<WorkState>(i))) return i;
    }
    throw RefusedInput(
        {file.string(), 0, "unknown work state '" + std::string(name) + "'", "make the file anew"});
}

// Weight readings of a log, brought to the seconds of the truth.
class WeightBySecond {
  public:
    WeightBySecond(const Machine& machine, Problems& problems) : reader_(machine.log, problems) {}

    // The reading nearest before or at `unix_s`; NaN where there is none within a second.
    double at(double unix_s) {
        while (more_ && next_s_ <= unix_s + kSameMomentS) {
            if (std::isfinite(next_kg_)) {
                last_s_ = next_s_;
                last_kg_ = next_kg_;
            }
            more_ = reader_.next(row_);
            next_s_ = static_cast<double>(row_.time_us) / 1e6;
            next_kg_ = weight_of(row_);
        }
        return unix_s - last_s_ < 1.0 ? last_kg_ : std::nan("");
    }

  private:
    static double weight_of(const LogRow& row) {
        if (row.holds(Column::hopper_kg)) return row[Column::hopper_kg];
        double sum = std::nan("");
        for (const Column cell : {Column::cell1_kg, Column::cell2_kg, Column::cell3_kg, Column::cell4_kg}) {
            if (row.holds(cell)) sum = (std::isfinite(sum) ? sum : 0.0) + row[cell];
        }
        return sum;
    }
    LogReader reader_;
    LogRow row_;
    bool more_ = true;
    double next_s_ = -1.0;
    double next_kg_ = std::nan("");
    double last_s_ = -1e18;
    double last_kg_ = 0.0;
};

// Compares second by second.
class SecondBySecond {
  public:
    explicit SecondBySecond(MachineScore& score) : score_(score) {}

    void add(int true_state, double true_flow, double weight_kg, double flow) {
        if (true_state == static_cast<int>(WorkState::tipping)) last_tip_ = second_;
        weights_.push_back(weight_kg);
        for (std::size_t w = 0; w < kDifferencing_s.size(); ++w) {
            const long span = kDifferencing_s[w];
            if (second_ < span || second_ - last_tip_ <= span) continue;
            const double now = weights_[weights_.size() - 1];
            const double before = weights_[weights_.size() - 1 - static_cast<std::size_t>(span)];
            if (!std::isfinite(now) || !std::isfinite(before)) continue;
            score_.differencing[w].differenced.add((now - before) / static_cast<double>(span) - true_flow);
            score_.differencing[w].estimated.add(flow - true_flow);
        }
        if (weights_.size() > 200) weights_.erase(weights_.begin(), weights_.begin() + 100);
        ++second_;
    }

  private:
    MachineScore& score_;
    std::vector<double> weights_;
    long second_ = 0;
    long last_tip_ = kNoTip;
};

void score_seconds(const Machine& machine, const std::filesystem::path& day_folder,
                   const std::filesystem::path& estimates_file, const std::filesystem::path& truth_file,
                   MachineScore& score) {
    ColumnReader estimates(estimates_file,
                           {"unix_s", "mass_kg", "mass_sd_kg", "flow_kgps", "flow_sd_kgps", "state"});
    ColumnReader truth(truth_file, {"unix_s", "mass_kg", "flow_kgps", "state"});
    Problems ignored;
    WeightBySecond weights(machine, ignored);
    SecondBySecond seconds(score);
    const TruePlant plant =
        read_true_plant(day_folder, machine.id, static_cast<double>(machine.parameters.width_m));
    const FlowBound bound = flow_bound(plant.machine, plant.crops, plant.seconds);
    bool more = estimates.next();
    std::size_t second = 0;
    for (; more && truth.next(); ++second) {
        const double unix_s = truth.number(0);
        while (more && estimates.number(0) < unix_s - kSameMomentS) more = estimates.next();
        if (!more) break;
        if (estimates.number(0) > unix_s + kSameMomentS) continue;
        const double true_flow = truth.number(2);
        const double flow = estimates.number(3);
        const int true_state = state_index(truth.text(3), truth_file);
        const int state = state_index(estimates.text(5), estimates_file);
        score.flow.add(flow - true_flow);
        score.bound.add(std::sqrt(bound.filter_variance[second]));
        score.smoother.add(std::sqrt(bound.smoother_variance[second]));
        ++score.seconds;
        if (state == true_state) ++score.seconds_right;
        ++score.states[static_cast<std::size_t>(true_state)][static_cast<std::size_t>(state)];
        if (std::abs(flow - true_flow) <= kReach90 * estimates.number(4)) ++score.flow_inside_90;
        if (std::abs(estimates.number(1) - truth.number(1)) <= kReach90 * estimates.number(2))
            ++score.mass_inside_90;
        seconds.add(true_state, true_flow, weights.at(unix_s), flow);
    }
}

struct FoundLoad {
    double end_s;
    double net_kg;
    double net_sd_kg;
    bool matched;
};

void score_loads(const std::filesystem::path& results, const std::filesystem::path& day_folder,
                 MachineScore& score) {
    std::vector<FoundLoad> found;
    ColumnReader ledger(results / "loads.csv", {"machine", "end_unix_s", "net_kg", "net_sd_kg"});
    while (ledger.next()) {
        if (ledger.text(0) == score.id)
            found.push_back({ledger.number(1), ledger.number(2), ledger.number(3), false});
    }
    ColumnReader truth(day_folder / "truth" / "loads.csv", {"machine", "load", "end_unix_s", "net_kg"});
    while (truth.next()) {
        if (truth.text(0) != score.id) continue;
        LoadScore load;
        load.machine = score.id;
        load.number = static_cast<int>(truth.number(1));
        load.true_kg = truth.number(3);
        for (FoundLoad& candidate : found) {
            if (candidate.matched || std::abs(candidate.end_s - truth.number(2)) > kSameLoadS) continue;
            candidate.matched = true;
            load.found = true;
            load.net_kg = candidate.net_kg;
            load.net_sd_kg = candidate.net_sd_kg;
            break;
        }
        score.loads.push_back(load);
    }
    for (const FoundLoad& load : found) score.loads_too_many += load.matched ? 0 : 1;
}

void score_totals(const std::filesystem::path& results, const std::filesystem::path& day_folder,
                  MachineScore& score) {
    ColumnReader truth(day_folder / "truth" / "totals.csv", {"machine", "harvested_kg", "area_m2"});
    bool in_truth = false;
    while (truth.next()) {
        if (truth.text(0) != score.id) continue;
        in_truth = true;
        score.true_harvested_kg = truth.number(1);
        score.true_area_m2 = truth.number(2);
    }
    if (!in_truth) {
        throw RefusedInput({(day_folder / "truth" / "totals.csv").string(), 0,
                            "has no machine '" + score.id + "'", "make the day anew"});
    }
    const std::filesystem::path file = results / "summary.json";
    std::ifstream stream(file, std::ios::binary);
    const nlohmann::json summary = nlohmann::json::parse(stream, nullptr, false);
    if (summary.is_discarded() || !summary.contains("machines")) {
        throw RefusedInput({file.string(), 0, "is missing or no summary of a replay",
                            "replay the day into that folder first"});
    }
    bool found = false;
    try {
        for (const nlohmann::json& machine : summary["machines"]) {
            if (machine.value("id", "") != score.id) continue;
            score.harvested_kg = machine.value("harvested_t", 0.0) * 1e3;
            score.area_m2 = machine.value("area_ha", 0.0) * 1e4;
            found = true;
        }
    } catch (const nlohmann::json::exception&) {
        found = false;
    }
    if (!found) {
        throw RefusedInput({file.string(), 0, "has no machine '" + score.id + "'",
                            "replay this day into that folder first"});
    }
}

}  // namespace

double RootMeanSquare::value() const {
    return count > 0 ? std::sqrt(sum_of_squares / static_cast<double>(count)) : 0.0;
}

double MachineScore::harvested_error_share() const {
    return true_harvested_kg > 0.0 ? (harvested_kg - true_harvested_kg) / true_harvested_kg : 0.0;
}

double MachineScore::state_share() const {
    return seconds > 0 ? static_cast<double>(seconds_right) / static_cast<double>(seconds) : 0.0;
}

double MachineScore::best_ratio() const {
    const DifferencingScore* best = nullptr;
    for (const DifferencingScore& window : differencing) {
        if (window.differenced.count == 0) continue;
        if (best == nullptr || window.differenced.value() < best->differenced.value()) best = &window;
    }
    return best == nullptr ? 0.0 : best->estimated.value() / best->differenced.value();
}

DayScore score_day(const std::filesystem::path& results, const std::filesystem::path& day_folder) {
    const Day day = read_day(day_folder);
    if (!std::filesystem::is_directory(day_folder / "truth")) {
        throw RefusedInput({day_folder.string(), 0, "holds no truth",
                            "only synthetic days can be scored (`podrate synth`)"});
    }
    DayScore score;
    for (const Machine& machine : day.machines) {
        MachineScore& of_machine = score.machines.emplace_back();
        of_machine.id = machine.id;
        const std::filesystem::path estimates = results / ("estimates_" + machine.id + ".csv");
        if (!std::filesystem::exists(estimates)) {
            throw RefusedInput(
                {estimates.string(), 0, "is missing", "replay the day with --estimates first"});
        }
        score_totals(results, day_folder, of_machine);
        score_seconds(machine, day_folder, estimates, day_folder / "truth" / (machine.id + ".csv"),
                      of_machine);
        score_loads(results, day_folder, of_machine);
    }
    return score;
}

}  // namespace podrate::sim
