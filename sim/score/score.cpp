#include "score/score.hpp"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "log/column_reader.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

constexpr double kSameLoadS = 60.0;

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

void read_loss(const nlohmann::json& machine, const std::string& key, LossPart& loss) {
    loss.share = machine.at(key + "mean").get<double>() / 100.0;
    loss.low = machine.at(key + "low").get<double>() / 100.0;
    loss.high = machine.at(key + "high").get<double>() / 100.0;
}

void score_totals(const std::filesystem::path& results, const std::filesystem::path& day_folder,
                  MachineScore& score) {
    ColumnReader truth(day_folder / "truth" / "totals.csv",
                       {"machine", "harvested_kg", "area_m2", "lost_kg"});
    bool in_truth = false;
    while (truth.next()) {
        if (truth.text(0) != score.id) continue;
        in_truth = true;
        score.true_harvested_kg = truth.number(1);
        score.true_area_m2 = truth.number(2);
        score.true_lost_kg = truth.number(3);
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
            score.rows_bad = machine.value("rows_bad", 0L);
            read_loss(machine, "loss_pct_", score.loss.total);
            read_loss(machine, "drum_loss_pct_", score.loss.drum);
            found = true;
        }
    } catch (const nlohmann::json::exception&) {
        found = false;
    }
    if (!found) {
        throw RefusedInput({file.string(), 0, "has no machine '" + score.id + "', or not all of its figures",
                            "replay this day into that folder first"});
    }
    score.loss.total.known = score.true_stood_kg() > 0.0;
    if (score.loss.total.known) score.loss.total.true_share = score.true_lost_kg / score.true_stood_kg();
}

}  // namespace

double MachineScore::harvested_error_share() const {
    return true_harvested_kg > 0.0 ? (harvested_kg - true_harvested_kg) / true_harvested_kg : 0.0;
}

double MachineScore::loads_within(double share) const {
    if (loads.empty()) return 1.0;
    long good = 0;
    for (const LoadScore& load : loads) {
        if (load.found && std::abs(load.net_kg / load.true_kg - 1.0) <= share) ++good;
    }
    return static_cast<double>(good) / static_cast<double>(loads.size());
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

MachineScore DayScore::total() const {
    MachineScore all;
    all.id = "total";
    LossTotal loss;
    for (const MachineScore& m : machines) {
        all.true_harvested_kg += m.true_harvested_kg;
        all.harvested_kg += m.harvested_kg;
        all.true_area_m2 += m.true_area_m2;
        all.area_m2 += m.area_m2;
        all.true_lost_kg += m.true_lost_kg;
        loss.add(m.loss, m.true_stood_kg(), m.stood_kg());
        all.flow.add(m.flow);
        all.flow_error_sum_kgps += m.flow_error_sum_kgps;
        all.bound.add(m.bound);
        all.smoother_bound.add(m.smoother_bound);
        all.smoother.add(m.smoother);
        for (std::size_t w = 0; w < all.differencing.size(); ++w) {
            all.differencing[w].differenced.add(m.differencing[w].differenced);
            all.differencing[w].estimated.add(m.differencing[w].estimated);
        }
        all.seconds += m.seconds;
        all.seconds_right += m.seconds_right;
        for (std::size_t t = 0; t < all.states.size(); ++t) {
            for (std::size_t e = 0; e < all.states.size(); ++e) all.states[t][e] += m.states[t][e];
        }
        all.mass_coverage.add(m.mass_coverage);
        all.flow_coverage.add(m.flow_coverage);
        all.yield_coverage.add(m.yield_coverage);
        all.loss_coverage.add(m.loss_coverage);
        all.loads.insert(all.loads.end(), m.loads.begin(), m.loads.end());
        all.loads_too_many += m.loads_too_many;
        all.rows_bad += m.rows_bad;
    }
    all.loss = loss.score();
    return all;
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
        for (const char* kind : {"estimates_", "yields_", "losses_"}) {
            const std::filesystem::path file = results / (kind + machine.id + ".csv");
            if (!std::filesystem::exists(file))
                throw RefusedInput({file.string(), 0, "is missing", "replay the day with --estimates first"});
        }
        score_totals(results, day_folder, of_machine);
        score_seconds(machine, results, day_folder, of_machine);
        score_loads(results, day_folder, of_machine);
    }
    score.map = score_map(day, results, day_folder);
    return score;
}

}  // namespace podrate::sim
