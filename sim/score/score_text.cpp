#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "log/number.hpp"
#include "score/score.hpp"

namespace podrate::sim {
namespace {

constexpr double kTphPerKgps = 3.6;

std::string padded(const std::string& text, std::size_t width) {
    return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

double share(long part, long whole) {
    return whole > 0 ? static_cast<double>(part) / static_cast<double>(whole) : 0.0;
}

std::string machine_text(const MachineScore& m) {
    std::string text = m.id + "\n";
    text += "  harvested   " + padded(fixed(m.harvested_kg, 1), 10) + " kg, truth " +
            fixed(m.true_harvested_kg, 1) + " kg, error " + fixed(100.0 * m.harvested_error_share(), 3) +
            " %\n";
    const double area_error = m.true_area_m2 > 0.0 ? m.area_m2 / m.true_area_m2 - 1.0 : 0.0;
    text += "  area        " + padded(fixed(m.area_m2 / 1e4, 4), 10) + " ha, truth " +
            fixed(m.true_area_m2 / 1e4, 4) + " ha, error " + fixed(100.0 * area_error, 2) + " %\n";
    text += "  flow RMSE   " + padded(fixed(m.flow.value() * kTphPerKgps, 3), 10) + " t/h over all seconds\n";
    text += "    bound of the true model " + fixed(m.bound.value() * kTphPerKgps, 3) + " t/h, ours is " +
            fixed(m.over_bound(), 3) + " times that; with the future too " +
            fixed(m.smoother.value() * kTphPerKgps, 3) + " t/h\n";
    for (std::size_t w = 0; w < kDifferencing_s.size(); ++w) {
        const DifferencingScore& d = m.differencing[w];
        text += "    seconds without a tip in the last " + std::to_string(kDifferencing_s[w]) + " s: ours " +
                fixed(d.estimated.value() * kTphPerKgps, 3) + ", differencing over " +
                std::to_string(kDifferencing_s[w]) + " s " + fixed(d.differenced.value() * kTphPerKgps, 3) +
                " t/h\n";
    }
    text += "    ours / best differencing " + fixed(m.best_ratio(), 3) + "\n";
    text += "  states      " + padded(fixed(100.0 * m.state_share(), 2), 10) + " % of seconds right\n";
    for (int t = 0; t < kWorkStates; ++t) {
        for (int e = 0; e < kWorkStates; ++e) {
            const long seconds = m.states[static_cast<std::size_t>(t)][static_cast<std::size_t>(e)];
            if (t == e || seconds == 0) continue;
            text += "    " + std::string(name_of(static_cast<WorkState>(t))) + " taken for " +
                    name_of(static_cast<WorkState>(e)) + ": " + std::to_string(seconds) + " s\n";
        }
    }
    text += "  90 % interval holds the truth: flow " + fixed(100.0 * share(m.flow_inside_90, m.seconds), 1) +
            " %, mass " + fixed(100.0 * share(m.mass_inside_90, m.seconds), 1) + " % of seconds\n";
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

nlohmann::ordered_json machine_json(const MachineScore& m) {
    using Json = nlohmann::ordered_json;
    Json differencing = Json::array();
    for (std::size_t w = 0; w < kDifferencing_s.size(); ++w) {
        differencing.push_back(
            {{"window_s", kDifferencing_s[w]},
             {"differencing_rmse_tph", m.differencing[w].differenced.value() * kTphPerKgps},
             {"flow_rmse_tph", m.differencing[w].estimated.value() * kTphPerKgps}});
    }
    Json loads = Json::array();
    for (const LoadScore& load : m.loads) {
        loads.push_back({{"load", load.number},
                         {"found", load.found},
                         {"true_kg", load.true_kg},
                         {"net_kg", load.net_kg},
                         {"net_sd_kg", load.net_sd_kg}});
    }
    return {{"id", m.id},
            {"true_harvested_kg", m.true_harvested_kg},
            {"harvested_kg", m.harvested_kg},
            {"harvested_error_pct", 100.0 * m.harvested_error_share()},
            {"flow_rmse_tph", m.flow.value() * kTphPerKgps},
            {"flow_bound_tph", m.bound.value() * kTphPerKgps},
            {"flow_over_bound", m.over_bound()},
            {"flow_smoother_bound_tph", m.smoother.value() * kTphPerKgps},
            {"differencing", differencing},
            {"flow_over_best_differencing", m.best_ratio()},
            {"states_right_pct", 100.0 * m.state_share()},
            {"flow_inside_90_pct", 100.0 * share(m.flow_inside_90, m.seconds)},
            {"mass_inside_90_pct", 100.0 * share(m.mass_inside_90, m.seconds)},
            {"loads", loads},
            {"loads_too_many", m.loads_too_many}};
}

}  // namespace

std::string score_text(const DayScore& score) {
    std::string text;
    double harvested = 0.0;
    double truth = 0.0;
    long seconds = 0;
    long right = 0;
    RootMeanSquare flow;
    for (const MachineScore& m : score.machines) {
        text += machine_text(m);
        harvested += m.harvested_kg;
        truth += m.true_harvested_kg;
        seconds += m.seconds;
        right += m.seconds_right;
        flow.sum_of_squares += m.flow.sum_of_squares;
        flow.count += m.flow.count;
    }
    text += "total\n  harvested error " + fixed(truth > 0.0 ? 100.0 * (harvested / truth - 1.0) : 0.0, 3) +
            " %, flow RMSE " + fixed(flow.value() * kTphPerKgps, 3) + " t/h, states right " +
            fixed(100.0 * share(right, seconds), 2) + " %\n";
    return text;
}

std::string score_json(const DayScore& score) {
    nlohmann::ordered_json machines = nlohmann::ordered_json::array();
    for (const MachineScore& m : score.machines) machines.push_back(machine_json(m));
    return nlohmann::ordered_json({{"machines", machines}}).dump(2) + '\n';
}

}  // namespace podrate::sim
