#include "report/summary_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "hours/lost_time.hpp"
#include "log/number.hpp"
#include "podrate/version.hpp"
#include "report/loss_figures.hpp"
#include "report/plan_json.hpp"

namespace podrate::sim {
namespace {

using Json = nlohmann::ordered_json;

// Rounded through its decimal text, so that the file shows "5.43" and not "5.4300000000000006".
double rounded(double value, int decimals) {
    return parse_number(fixed(value, decimals)).value;
}

Json problems_json(const Problems& problems) {
    Json list = Json::array();
    for (const Problem& problem : problems.kept()) {
        list.push_back({{"file", problem.file},
                        {"line", problem.line},
                        {"reason", problem.reason},
                        {"mend", problem.mend},
                        {"note", problem.note}});
    }
    return list;
}

Json alarms_json(const MachineResult& m) {
    Json counts = Json::object();
    for (const AlarmEvent& event : m.alarms) {
        Json& count = counts[name_of(event.alarm)];
        count = count.is_null() ? 1 : count.get<int>() + 1;
    }
    return counts;
}

Json pauses_json(const MachineResult& m) {
    Json list = Json::array();
    for (const Pause& p : m.pauses) {
        const auto degrees = [&p](std::int32_t e7) {
            return p.place_known ? Json(rounded(static_cast<double>(e7) * 1e-7, 7)) : Json(nullptr);
        };
        list.push_back({{"start_unix_s", rounded(static_cast<double>(p.start_us) / 1e6, 1)},
                        {"end_unix_s", rounded(static_cast<double>(p.end_us) / 1e6, 1)},
                        {"lat_deg", degrees(p.lat_e7)},
                        {"lon_deg", degrees(p.lon_e7)},
                        {"heap_kg", rounded(static_cast<double>(p.heap_kg), 1)},
                        {"surge_kg",
                         p.surge_known ? Json(rounded(static_cast<double>(p.surge_kg), 1)) : Json(nullptr)}});
    }
    return list;
}

Json lost_time_json(const std::vector<Lost>& ranking, bool by_kind) {
    Json list = Json::array();
    for (const Lost& lost : ranking) {
        const bool unseen = by_kind && lost.kind == TimeKind::no_log;
        list.push_back({{by_kind ? "state" : "machine", by_kind ? name_of(lost.kind) : lost.name},
                        {"seconds", rounded(lost.seconds, 1)},
                        {"share_pct", rounded(100.0 * lost.share, 2)},
                        {"cumulated_pct", rounded(100.0 * lost.cumulated_share, 2)},
                        {"stops", lost.times},
                        {"forgone_t", unseen ? Json(nullptr) : Json(rounded(lost.forgone_kg / 1e3, 4))}});
    }
    return list;
}

// Keys "NAME_loss_pct_mean" and its 90 % range.
void add_loss(Json& json, const std::string& name, const Share& share) {
    json[name + "_loss_pct_mean"] = rounded(100.0 * static_cast<double>(share.share), 2);
    json[name + "_loss_pct_low"] = rounded(100.0 * static_cast<double>(share.low), 2);
    json[name + "_loss_pct_high"] = rounded(100.0 * static_cast<double>(share.high), 2);
}

Json machine_json(const MachineResult& m) {
    Json states = Json::object();
    for (int i = 0; i < kWorkStates; ++i) {
        const auto state = static_cast<WorkState>(i);
        states[name_of(state)] = rounded(m.seconds(state), 1);
    }
    states["no_data"] = rounded(m.seconds_without_data, 1);
    const LossShares parts = loss_parts(m);
    Json json = {
        {"id", m.id},
        {"rows_read", m.rows_read},
        {"rows_bad", m.rows_bad},
        {"harvested_t", rounded(static_cast<double>(m.last.harvested_kg) / 1e3, 4)},
        {"harvested_sd_t", rounded(static_cast<double>(m.last.harvested_sd_kg) / 1e3, 4)},
        {"area_ha", rounded(static_cast<double>(m.last.area_m2) / 1e4, 4)},
        {"yield_tpha", rounded(m.yield_tpha(), 3)},
        {"load_rate_tph_mean", rounded(m.load_rate_tph(), 3)},
        {"loss_pct_mean", rounded(100.0 * static_cast<double>(parts.total.share), 2)},
        {"loss_pct_low", rounded(100.0 * static_cast<double>(parts.total.low), 2)},
        {"loss_pct_high", rounded(100.0 * static_cast<double>(parts.total.high), 2)},
        {"loads", m.loads.size()},
        {"seconds_by_state", states},
        {"alarms", m.alarms.size()},
        {"in_hopper_t", rounded(static_cast<double>(m.last.mass_kg) / 1e3, 4)},
        {"problems", problems_json(m.problems)},
        {"problems_count", m.problems.count()},
    };
    const std::optional<RangedFigure> lost = lost_kg(m);
    json["lost_t"] = lost ? Json(rounded(lost->value / 1e3, 4)) : Json(nullptr);
    add_loss(json, "drum", parts.drum);
    add_loss(json, "picking", parts.picking);
    json["tray_checks"] = m.last.tray_checks;
    json["loss_sensor"] = m.last.loss_sensor;
    json["alarms_by_kind"] = alarms_json(m);
    json["pauses"] = pauses_json(m);
    if (!m.usable) json["refused"] = m.refusal;
    return json;
}

// Unix seconds at 5, 50 and 95 %; null where that lies before the first reading or beyond the outlook.
Json moments_json(const std::optional<Believed>& when) {
    if (!when) return nullptr;
    const auto moment = [](double unix_s) {
        return std::isfinite(unix_s) ? Json(rounded(unix_s, 0)) : Json(nullptr);
    };
    return {{"early_unix_s", moment(when->low)},
            {"likely_unix_s", moment(when->middle)},
            {"late_unix_s", moment(when->high)}};
}

// A field's yield at the common reading, and how ripe it is at the day's end.
void add_maturity(Json& field, const std::string& name, const DayResult& result) {
    const std::optional<AdjustedYield> adjusted = adjusted_yield_of(name, result.maturity);
    const auto of_adjusted = [&](double value, int decimals) {
        return adjusted ? Json(rounded(value, decimals)) : Json(nullptr);
    };
    const AdjustedYield a = adjusted.value_or(AdjustedYield{});
    field["tenderometer"] = of_adjusted(a.reading.middle, 1);
    field["yield_adjusted_tpha"] = of_adjusted(a.yield_tpha.middle, 3);
    field["yield_adjusted_tpha_low"] = of_adjusted(a.yield_tpha.low, 3);
    field["yield_adjusted_tpha_high"] = of_adjusted(a.yield_tpha.high, 3);
    field["maturity"] = nullptr;
    for (const FieldMaturity& m : result.maturity) {
        if (m.field != name) continue;
        field["maturity"] = {
            {"unix_s", rounded(m.now_s, 0)},
            {"tenderometer", rounded(m.now.middle, 1)},
            {"tenderometer_low", rounded(m.now.low, 1)},
            {"tenderometer_high", rounded(m.now.high, 1)},
            {"window_low", m.window ? Json(rounded(m.window->low, 1)) : Json(nullptr)},
            {"window_high", m.window ? Json(rounded(m.window->high, 1)) : Json(nullptr)},
            {"in_window_pct", m.window ? Json(rounded(100.0 * m.in_window_now, 1)) : Json(nullptr)},
            {"enters", moments_json(m.enters)},
            {"leaves", moments_json(m.leaves)},
            {"heat_units", m.heat_units ? Json(rounded(*m.heat_units, 1)) : Json(nullptr)}};
    }
}

Json fields_json(const DayResult& result) {
    Json fields = Json::array();
    for (const FieldFigures& f : result.fields) {
        const auto known_or_null = [](bool known, double value, int decimals) {
            return known ? Json(rounded(value, decimals)) : Json(nullptr);
        };
        const bool on_ground = f.covered_m2 > 0.0;
        const bool worked = f.in_field_h > 0.0;
        const Share loss = f.loss.value_or(Share{});
        const auto lost_pct = [&](Real share) {
            return known_or_null(f.loss.has_value(), 100.0 * static_cast<double>(share), 2);
        };
        const auto lost_kgpha = [&](Real share) {
            return known_or_null(f.loss.has_value() && on_ground, f.lost_kg_per_ha(share), 1);
        };
        fields.push_back({{"name", f.name},
                          {"field_area_ha", known_or_null(f.bounded, f.field_m2 / 1e4, 4)},
                          {"harvested_t", rounded(f.harvested_kg / 1e3, 4)},
                          {"area_ha", known_or_null(!f.elsewhere, f.covered_m2 / 1e4, 4)},
                          {"left_ha", known_or_null(f.bounded, f.left_m2 / 1e4, 4)},
                          {"beyond_ha", known_or_null(f.bounded, f.beyond_m2 / 1e4, 4)},
                          {"swept_ha", rounded(f.swept_m2 / 1e4, 4)},
                          {"yield_tpha", known_or_null(on_ground, f.yield_tpha(), 3)},
                          {"loss_pct_mean", lost_pct(loss.share)},
                          {"loss_pct_low", lost_pct(loss.low)},
                          {"loss_pct_high", lost_pct(loss.high)},
                          {"lost_kgpha", lost_kgpha(loss.share)},
                          {"lost_kgpha_low", lost_kgpha(loss.low)},
                          {"lost_kgpha_high", lost_kgpha(loss.high)},
                          {"machines", f.machines},
                          {"machine_hours", rounded(f.in_field_h, 3)},
                          {"work_rate_haph", known_or_null(on_ground && worked, f.work_rate_ha_per_h, 3)},
                          {"capacity_haph", known_or_null(worked, f.capacity_ha_per_h, 3)},
                          {"efficiency_pct", known_or_null(worked, 100.0 * f.efficiency, 1)},
                          {"cost", known_or_null(f.cost.has_value(), f.cost.value_or(0.0), 2)}});
        add_maturity(fields.back(), f.name, result);
    }
    return fields;
}

}  // namespace

std::string summary_json(const Day& day, const DayResult& result) {
    Json machines = Json::array();
    for (std::size_t i = 0; i < result.machines.size(); ++i) {
        machines.push_back(machine_json(result.machines[i]));
        if (result.neighbour_pairs > 0 && result.machines[i].usable)
            add_loss(machines.back(), "looked_back", result.looked_back[i].shares.total);
    }
    Json total = {
        {"harvested_t", rounded(result.harvested_t, 4)},
        {"harvested_sd_t", rounded(result.harvested_sd_t, 4)},
        {"area_ha", rounded(result.area_ha, 4)},
        {"yield_tpha", rounded(result.yield_tpha, 3)},
        {"planned_t", nullptr},
        {"shortfall_t", nullptr},
    };
    if (result.planned_t) {
        total["planned_t"] = rounded(*result.planned_t, 4);
        total["shortfall_t"] = rounded(*result.planned_t - result.harvested_t, 4);
    }
    Json summary = {
        {"podrate", kVersion},  {"day", day.label},
        {"date", day.date},     {"time_zone", day.time_zone},
        {"machines", machines}, {"fields", fields_json(result)},
        {"total", total},       {"problems", problems_json(day.problems)},
    };
    summary["plan"] = plan_json(day, result);
    summary["stop_least_s"] = day.hours.stop_least_s;
    summary["lost_time_by_state"] = lost_time_json(lost_by_kind(result, day.hours.stop_least_s), true);
    summary["lost_time_by_machine"] = lost_time_json(lost_by_machine(result, day.hours.stop_least_s), false);
    return summary.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace podrate::sim
