#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "accuracy_table/day_run.hpp"
#include "accuracy_table/table.hpp"
#include "log/number.hpp"
#include "support/fault_cases.hpp"

namespace podrate::accuracy {
namespace {

using namespace podrate::sim;
using podrate::test::FaultCase;
using podrate::test::kFaultCases;

constexpr double kTotalShare = 0.01;  // a total further off must be doubted
constexpr double kStatedSds = 3.0;
constexpr double kSettledS = 30.0;

struct Outcome {
    double worst_error_pct = 0.0;
    double stated_sd_pct = 0.0;  // of that seed
    int told = 0;
    double slowest_s = 0.0;  // until told
    double settled_after_s = 0.0;
    bool honest = true;  // total within 1 %, or the fault told and the doubt wide enough
};

// From when after `end_unix_s` on the flow is again what it would have been without the fault, within its
// stated sd. The truth is the same, so errors differ as estimates do.
double like_without_s(const std::vector<WatchedSecond>& with, const std::vector<WatchedSecond>& without,
                      double end_unix_s) {
    std::vector<FlowOff> off;
    std::size_t j = 0;
    for (const WatchedSecond& second : with) {
        while (j < without.size() && without[j].unix_s < second.unix_s - 0.5) ++j;
        if (j == without.size()) break;
        if (without[j].unix_s > second.unix_s + 0.5) continue;
        off.push_back({second.unix_s, (second.flow_error_kgps - without[j].flow_error_kgps) /
                                          std::max(without[j].flow_sd_kgps, kLeastFlowSd_kgps)});
    }
    return settled_after_s(off, end_unix_s, 1.0);
}

// Whether the machine itself did something else, so that there is no like day without it.
bool changes_truth(FaultKind kind) {
    return kind == FaultKind::tip_in_part || kind == FaultKind::taken_by_hand ||
           kind == FaultKind::hopper_leak || kind == FaultKind::drum_blocked;
}

Outcome outcome_of(const FaultCase& c, const std::filesystem::path& file, std::uint64_t seeds,
                   std::size_t number) {
    Outcome outcome;
    const FaultKind kind = fault_named(c.kind).value();
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        Scenario scenario = read_scenario(file, seed);
        ScenarioMachine& machine = scenario.machines.front();
        machine.cells_apart = c.apart;
        machine.scale.cells = c.cell > 0 ? 4 : 1;
        const Scenario usual = scenario;
        scenario.faults.push_back({kind, machine.id, c.at_s, c.for_s, c.size, c.cell});
        const DayRun run(scenario, "fault_" + std::to_string(number) + '_' + std::to_string(seed));
        const MachineScore score = run.score();
        const FaultScore& fault = score.faults.front();
        const bool told = fault.told || score.rows_bad > 0;
        // Where the log ends early the truth goes on: its total is that of the seconds the log has.
        const double true_kg = kind == FaultKind::log_cut ? score.true_seen_kg : score.true_harvested_kg;
        const double error = score.harvested_kg - true_kg;
        if (100.0 * std::abs(error) / true_kg >= std::abs(outcome.worst_error_pct)) {
            outcome.worst_error_pct = 100.0 * error / true_kg;
            outcome.stated_sd_pct = 100.0 * run.stated_sd_kg() / true_kg;
        }
        outcome.told += told ? 1 : 0;
        outcome.slowest_s = std::max(outcome.slowest_s, fault.told ? fault.told_after_s : 0.0);
        double settled_s = fault.settled_after_s;
        if (!changes_truth(kind)) {
            const DayRun without(usual, "usual_" + std::to_string(number) + '_' + std::to_string(seed));
            settled_s = like_without_s(score.watched, without.score().watched, fault.end_unix_s);
        }
        outcome.settled_after_s = std::max(outcome.settled_after_s, settled_s < 0.0 ? 999.0 : settled_s);
        const bool right = std::abs(error) <= kTotalShare * true_kg;
        if (!right && !(told && std::abs(error) <= kStatedSds * run.stated_sd_kg())) outcome.honest = false;
    }
    return outcome;
}

}  // namespace

bool print_faults(const std::filesystem::path& file, std::uint64_t seeds) {
    std::vector<Outcome> outcomes(std::size(kFaultCases));
    on_all_cores(outcomes.size(),
                 [&](std::size_t i) { outcomes[i] = outcome_of(kFaultCases[i], file, seeds, i); });
    std::printf(
        "%s, each fault alone, %d seeds\n"
        "  fault            cell     at s    for s      size   worst total   stated sd   told in   slowest   "
        "settled\n",
        read_scenario(file, 1).label.c_str(), static_cast<int>(seeds));
    bool good = true;
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
        const FaultCase& c = kFaultCases[i];
        const Outcome& o = outcomes[i];
        const bool held = o.honest && o.settled_after_s <= kSettledS;
        good = good && held;
        std::printf("  %-16s %4s %8s %8s %9s %11s %% %9s %%   %d of %d %7s s %7s s%s\n", c.kind,
                    c.cell > 0 ? std::to_string(c.cell).c_str() : "all", fixed(c.at_s, 0).c_str(),
                    fixed(c.for_s, 0).c_str(), fixed(c.size, 2).c_str(), fixed(o.worst_error_pct, 3).c_str(),
                    fixed(o.stated_sd_pct, 3).c_str(), o.told, static_cast<int>(seeds),
                    o.told > 0 ? fixed(o.slowest_s, 0).c_str() : "-", fixed(o.settled_after_s, 0).c_str(),
                    held ? "" : "   missed");
    }
    return good;
}

}  // namespace podrate::accuracy
