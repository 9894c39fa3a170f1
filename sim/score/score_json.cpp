#include <nlohmann/json.hpp>

#include "log/units.hpp"
#include "score/oiml.hpp"
#include "score/score.hpp"

namespace podrate::sim {
namespace {

using Json = nlohmann::ordered_json;

Json differencing_json(const MachineScore& m) {
    Json list = Json::array();
    for (std::size_t w = 0; w < kDifferencing_s.size(); ++w) {
        list.push_back({{"window_s", kDifferencing_s[w]},
                        {"differencing_rmse_tph", m.differencing[w].differenced.value() * kTphPerKgps},
                        {"true_area_ha", m.true_area_m2 / 1e4},
                        {"area_ha", m.area_m2 / 1e4},
                        {"seconds_compared", m.seconds},
                        {"flow_rmse_tph", m.differencing[w].estimated.value() * kTphPerKgps}});
    }
    return list;
}

Json loads_json(const MachineScore& m) {
    Json list = Json::array();
    for (const LoadScore& load : m.loads) {
        list.push_back({{"machine", load.machine},
                        {"load", load.number},
                        {"found", load.found},
                        {"true_kg", load.true_kg},
                        {"net_kg", load.net_kg},
                        {"net_sd_kg", load.net_sd_kg}});
    }
    return list;
}

Json oiml_json(const MachineScore& m) {
    Json list = Json::array();
    for (const OimlLimit& limit : kOimlLimits) {
        list.push_back({{"class", limit.name},
                        {"initial_limit_pct", limit.initial_pct},
                        {"within_initial_pct", 100.0 * m.loads_within(limit.initial_pct / 100.0)},
                        {"in_service_limit_pct", limit.in_service_pct},
                        {"within_in_service_pct", 100.0 * m.loads_within(limit.in_service_pct / 100.0)}});
    }
    return list;
}

Json coverage_json(const Coverage& coverage) {
    Json json = Json::object();
    for (std::size_t i = 0; i < Coverage::kLevels_pct.size(); ++i)
        json["inside_" + std::to_string(Coverage::kLevels_pct[i]) + "_pct"] = coverage.pct(i);
    json["seconds"] = coverage.count;
    return json;
}

Json states_json(const MachineScore& m) {
    Json json = Json::object();
    for (std::size_t t = 0; t < m.states.size(); ++t) {
        Json row = Json::object();
        for (std::size_t e = 0; e < m.states.size(); ++e)
            row[name_of(static_cast<WorkState>(e))] = m.states[t][e];
        json[name_of(static_cast<WorkState>(t))] = row;
    }
    return json;
}

Json faults_json(const MachineScore& m) {
    Json list = Json::array();
    for (const FaultScore& f : m.faults) {
        Json fault = {{"kind", f.kind}, {"start_unix_s", f.start_unix_s}, {"end_unix_s", f.end_unix_s}};
        fault["told_after_s"] = f.told ? Json(f.told_after_s) : Json(nullptr);
        fault["flow_settled_after_s"] = f.settled_after_s < 0.0 ? Json(nullptr) : Json(f.settled_after_s);
        list.push_back(fault);
    }
    return list;
}

// `inside_90` of one machine; of a total, how many machines it holds for.
Json loss_part_json(const LossPart& part, const LossScore& loss, int machines, int held) {
    if (!part.known) return nullptr;
    Json json = {{"true_pct", 100.0 * part.true_share},
                 {"pct", 100.0 * part.share},
                 {"error_points", 100.0 * part.error()},
                 {"rmse_points", 100.0 * part.seconds.value()},
                 {"seconds", part.seconds.count}};
    if (loss.machines > 0) {
        json["machines"] = machines;
        json["machines_inside_90"] = held;
    } else {
        json["low_pct"] = 100.0 * part.low;
        json["high_pct"] = 100.0 * part.high;
        json["inside_90"] = part.held();
    }
    return json;
}

Json loss_json(const LossScore& loss) {
    return {{"total", loss_part_json(loss.total, loss, loss.machines, loss.total_held)},
            {"drum", loss_part_json(loss.drum, loss, loss.drum_known, loss.drum_held)}};
}

Json loss_alarms_json(const LossAlarmScore& alarms) {
    return {{"episodes", alarms.episodes},
            {"episodes_told", alarms.told},
            {"median_delay_s", alarms.told > 0 ? Json(alarms.median_delay_s()) : Json(nullptr)},
            {"alarms", alarms.alarms},
            {"false_alarms", alarms.false_alarms},
            {"chattered", alarms.chattered},
            {"harvest_h", alarms.harvest_h},
            {"alarms_per_h", alarms.alarms_per_h()},
            {"false_alarms_per_h", alarms.false_per_h()}};
}

Json machine_json(const MachineScore& m) {
    return {{"id", m.id},
            {"true_harvested_kg", m.true_harvested_kg},
            {"harvested_kg", m.harvested_kg},
            {"harvested_error_pct", 100.0 * m.harvested_error_share()},
            {"flow_rmse_tph", m.flow.value() * kTphPerKgps},
            {"flow_bias_tph", m.bias_kgps() * kTphPerKgps},
            {"flow_bound_tph", m.bound.value() * kTphPerKgps},
            {"flow_over_bound", m.over_bound()},
            {"flow_smoother_tph", m.smoother.value() * kTphPerKgps},
            {"flow_smoother_bound_tph", m.smoother_bound.value() * kTphPerKgps},
            {"flow_over_smoother", m.over_smoother()},
            {"differencing", differencing_json(m)},
            {"flow_over_best_differencing", m.best_ratio()},
            {"states_right_pct", 100.0 * m.state_share()},
            {"seconds_by_true_and_told_state", states_json(m)},
            {"flow_inside_90_pct", m.flow_coverage.pct(1)},
            {"mass_inside_90_pct", m.mass_coverage.pct(1)},
            {"mass_coverage", coverage_json(m.mass_coverage)},
            {"flow_coverage", coverage_json(m.flow_coverage)},
            {"yield_coverage", coverage_json(m.yield_coverage)},
            {"loss_coverage", coverage_json(m.loss_coverage)},
            {"loads", loads_json(m)},
            {"loads_too_many", m.loads_too_many},
            {"oiml_r107_borrowed", oiml_json(m)},
            {"loss", loss_json(m.loss)},
            {"loss_alarms", loss_alarms_json(m.loss.alarms)},
            {"faults", faults_json(m)},
            {"rows_bad", m.rows_bad}};
}

Json map_json(const std::optional<MapScore>& map) {
    if (!map) return nullptr;
    return {{"cell_m", map->cell_m},
            {"least_s_in_cell", kLeastCellS},
            {"cells", map->cells},
            {"yield_median_error_pct", map->median_error_pct},
            {"yield_90th_error_pct", map->ninetieth_error_pct},
            {"yield_bias_pct", map->bias_pct},
            {"yield_inside_90_pct", map->inside_90_pct},
            {"yield_mean_sd_pct", map->mean_sd_pct},
            {"loss_median_error_kgpha", map->loss_median_error_kg_per_ha},
            {"true_loss_kgpha", map->true_loss_kg_per_ha}};
}

}  // namespace

std::string score_json(const DayScore& score) {
    Json machines = Json::array();
    for (const MachineScore& m : score.machines) machines.push_back(machine_json(m));
    MachineScore all = score.total();
    Json total = machine_json(all);
    total.erase("id");
    total.erase("loads");
    total.erase("faults");
    return Json({{"machines", machines}, {"total", total}, {"map", map_json(score.map)}}).dump(2) + '\n';
}

}  // namespace podrate::sim
