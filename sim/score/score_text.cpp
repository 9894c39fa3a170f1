#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "log/units.hpp"
#include "score/loss_score_text.hpp"
#include "score/oiml.hpp"
#include "score/score.hpp"

namespace podrate::sim {
namespace {

std::string padded(const std::string& text, std::size_t width) {
    return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

std::string left(const std::string& text, std::size_t width) {
    return text.size() >= width ? text : text + std::string(width - text.size(), ' ');
}

std::string tph(double kgps, int decimals = 3) {
    return fixed(kgps * kTphPerKgps, decimals);
}

std::string flow_text(const MachineScore& m) {
    std::string text = "  flow RMSE   " + padded(tph(m.flow.value()), 10) + " t/h over the " +
                       std::to_string(m.seconds) + " s that the log has, bias " + tph(m.bias_kgps()) +
                       " t/h\n";
    text += "    bound of the true model, white noise alone, " + tph(m.bound.value()) + " t/h, ours is " +
            fixed(m.over_bound(), 3) + " times that\n";
    text += "    smoother of the true model, past and future, " + tph(m.smoother.value()) +
            " t/h (its bound " + tph(m.smoother_bound.value()) + "), ours is " + fixed(m.over_smoother(), 2) +
            " times that\n";
    for (std::size_t w = 0; w < kDifferencing_s.size(); ++w) {
        const DifferencingScore& d = m.differencing[w];
        text += "    seconds without a tip in the last " + std::to_string(kDifferencing_s[w]) + " s: ours " +
                tph(d.estimated.value()) + ", differencing over " + std::to_string(kDifferencing_s[w]) +
                " s " + tph(d.differenced.value()) + " t/h\n";
    }
    return text + "    ours / best differencing " + fixed(m.best_ratio(), 3) + "\n";
}

// Rows: the truth; columns: what was told; seconds.
std::string states_text(const MachineScore& m) {
    constexpr std::size_t kColumn = 15;
    std::string text =
        "  states      " + padded(fixed(100.0 * m.state_share(), 2), 10) + " % of seconds right\n";
    text += "    " + left("seconds; truth \\ told", 22);
    for (int e = 0; e < kWorkStates; ++e) text += padded(name_of(static_cast<WorkState>(e)), kColumn);
    text += '\n';
    for (std::size_t t = 0; t < m.states.size(); ++t) {
        text += "    " + left(name_of(static_cast<WorkState>(t)), 22);
        for (const long seconds : m.states[t]) text += padded(std::to_string(seconds), kColumn);
        text += '\n';
    }
    return text;
}

std::string coverage_text(const MachineScore& m) {
    std::string text = "  truth inside the interval, % of seconds";
    for (const int level : Coverage::kLevels_pct) text += padded(std::to_string(level) + " %", 8);
    text += '\n';
    const std::pair<const char*, const Coverage*> rows[] = {{"mass", &m.mass_coverage},
                                                            {"flow", &m.flow_coverage},
                                                            {"yield, while harvesting", &m.yield_coverage},
                                                            {"loss, while harvesting", &m.loss_coverage}};
    for (const auto& [name, coverage] : rows) {
        text += "    " + left(name, 37);
        for (std::size_t i = 0; i < Coverage::kLevels_pct.size(); ++i)
            text += padded(coverage->count > 0 ? fixed(coverage->pct(i), 1) : "-", 8);
        text += '\n';
    }
    return text;
}

std::string loads_text(const MachineScore& m) {
    std::string text;
    for (const LoadScore& load : m.loads) {
        text += "  load " + padded(std::to_string(load.number), 3) + "    ";
        if (!load.found) {
            text += "not found (truth " + fixed(load.true_kg, 1) + " kg)\n";
            continue;
        }
        const double error_kg = load.net_kg - load.true_kg;
        text += padded(fixed(load.net_kg, 1), 8) + " kg, truth " + padded(fixed(load.true_kg, 1), 8) +
                " kg, error " + padded(fixed(error_kg, 1), 6) +
                " kg = " + fixed(100.0 * error_kg / load.true_kg, 2) + " %, stated sd " +
                fixed(load.net_sd_kg, 1) + " kg\n";
    }
    if (m.loads_too_many > 0)
        text += "  loads that the truth does not have: " + std::to_string(m.loads_too_many) + "\n";
    return text;
}

// Beside the limits of OIML R 107, as a measure alone.
std::string oiml_text(const MachineScore& m) {
    if (m.loads.empty()) return {};
    std::string text =
        "  loads within the limits of OIML R 107 (a borrowed measure: no class is claimed, and its scope "
        "leaves\n"
        "  out loads that move while they are weighed)\n";
    for (const OimlLimit& limit : kOimlLimits) {
        text += "    class " + left(limit.name, 4) + "initial +-" + fixed(limit.initial_pct, 2) +
                " %: " + padded(fixed(100.0 * m.loads_within(limit.initial_pct / 100.0), 1), 5) +
                " %   in service +-" + fixed(limit.in_service_pct, 2) +
                " %: " + padded(fixed(100.0 * m.loads_within(limit.in_service_pct / 100.0), 1), 5) + " %\n";
    }
    return text;
}

std::string faults_text(const MachineScore& m) {
    std::string text;
    for (const FaultScore& f : m.faults) {
        text += "  fault " + left(f.kind, 16) + "from unix " + fixed(f.start_unix_s, 0) + " to " +
                fixed(f.end_unix_s, 0) + ": " +
                (f.told ? "told after " + fixed(f.told_after_s, 0) + " s" : "not told by the estimator") +
                (f.settled_after_s < 0.0
                     ? ", flow not settled in five minutes\n"
                     : ", flow settled " + fixed(f.settled_after_s, 0) + " s after its end\n");
    }
    if (!m.faults.empty() && m.rows_bad > 0)
        text += "  the log's reader told of " + std::to_string(m.rows_bad) + " bad rows\n";
    return text;
}

std::string machine_text(const MachineScore& m) {
    std::string text = m.id + "\n";
    text += "  harvested   " + padded(fixed(m.harvested_kg, 1), 10) + " kg, truth " +
            fixed(m.true_harvested_kg, 1) + " kg, error " + fixed(100.0 * m.harvested_error_share(), 3) +
            " %\n";
    const double area_error = m.true_area_m2 > 0.0 ? m.area_m2 / m.true_area_m2 - 1.0 : 0.0;
    text += "  area        " + padded(fixed(m.area_m2 / 1e4, 4), 10) + " ha, truth " +
            fixed(m.true_area_m2 / 1e4, 4) + " ha, error " + fixed(100.0 * area_error, 2) + " %\n";
    return text + loss_text(m.loss) + flow_text(m) + states_text(m) + coverage_text(m) + loads_text(m) +
           oiml_text(m) + faults_text(m);
}

std::string map_text(const MapScore& map) {
    return "map\n  yield       " + std::to_string(map.cells) + " cells of " + shown(map.cell_m) + " m with " +
           fixed(kLeastCellS, 0) + " s of work or more: off by " + fixed(map.median_error_pct, 1) +
           " % (median), nine in ten by less than " + fixed(map.ninetieth_error_pct, 1) + " %, bias " +
           fixed(map.bias_pct, 2) + " %\n    truth inside the 90 % range in " + fixed(map.inside_90_pct, 1) +
           " % of cells, stated sd " + fixed(map.mean_sd_pct, 1) +
           " % in the mean\n  left on the ground, off by " + fixed(map.loss_median_error_kg_per_ha, 0) +
           " kg/ha (median) of " + fixed(map.true_loss_kg_per_ha, 0) + "\n";
}

}  // namespace

std::string score_text(const DayScore& score) {
    std::string text;
    for (const MachineScore& m : score.machines) text += machine_text(m);
    MachineScore all = score.total();
    const std::string of_loads = oiml_text(all);
    all.loads.clear();
    return text + machine_text(all) + of_loads + (score.map ? map_text(*score.map) : std::string());
}

}  // namespace podrate::sim
