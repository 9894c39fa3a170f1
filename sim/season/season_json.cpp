#include <nlohmann/json.hpp>

#include "log/number.hpp"
#include "podrate/version.hpp"
#include "season/season_tables.hpp"

namespace podrate::sim {
namespace {

using OrderedJson = nlohmann::ordered_json;

OrderedJson number_json(double value, int decimals, bool known = true) {
    return known ? OrderedJson(parse_number(fixed(value, decimals)).value) : OrderedJson(nullptr);
}

void add_sums(OrderedJson& json, const SeasonSum& sum) {
    const std::optional<Share> loss = sum.loss();
    const auto lost_pct = [&](Real Share::*part) {
        return number_json(100.0 * static_cast<double>(loss.value_or(Share{}).*part), 2, loss.has_value());
    };
    const bool on_ground = sum.covered_m2 > 0.0;
    json["harvested_t"] = number_json(sum.harvested_kg / 1e3, 4);
    json["swept_ha"] = number_json(sum.swept_m2 / 1e4, 4);
    json["covered_ha"] = number_json(sum.covered_m2 / 1e4, 4, on_ground);
    json["loss_pct_mean"] = lost_pct(&Share::share);
    json["loss_pct_low"] = lost_pct(&Share::low);
    json["loss_pct_high"] = lost_pct(&Share::high);
    json["lost_t"] = number_json(sum.lost_kg / 1e3, 4, loss.has_value());
    json["harvesting_h"] = number_json(sum.harvesting_s / 3600.0, 3);
}

void add_of_machines(OrderedJson& json, const SeasonSum& sum) {
    json["harvested_sd_t"] = number_json(sum.harvested_sd_kg / 1e3, 4);
    json["yield_tpha"] =
        number_json(tonnes_per_hectare(sum.harvested_kg, sum.swept_m2), 3, sum.swept_m2 > 0.0);
    json["loads"] = sum.loads;
}

}  // namespace

std::string season_json(const Season& season, const SeasonSums& sums) {
    OrderedJson days = OrderedJson::array();
    for (std::size_t i = 0; i < season.days.size(); ++i) {
        const DayFigures& day = season.days[i];
        OrderedJson json = {{"day", day.label},     {"date", day.date},
                            {"folder", day.folder}, {"use", name_of(day.use)},
                            {"reason", day.reason}, {"machines", sums.days[i].machines}};
        if (day.counts()) {
            add_sums(json, sums.days[i]);
            add_of_machines(json, sums.days[i]);
        }
        json["planned_t"] = number_json(day.planned_t.value_or(0.0), 4, day.planned_t.has_value());
        days.push_back(json);
    }
    OrderedJson fields = OrderedJson::array();
    for (const SeasonSum& sum : sums.fields) {
        OrderedJson json = {{"name", sum.name}, {"days", sum.days}, {"machines", sum.machines}};
        add_sums(json, sum);
        json["yield_tpha"] =
            number_json(tonnes_per_hectare(sum.harvested_kg, sum.covered_m2), 3, sum.covered_m2 > 0.0);
        fields.push_back(json);
    }
    OrderedJson machines = OrderedJson::array();
    for (const SeasonSum& sum : sums.machines) {
        OrderedJson json = {{"id", sum.name}, {"days", sum.days}};
        add_sums(json, sum);
        add_of_machines(json, sum);
        json.erase("covered_ha");
        machines.push_back(json);
    }
    OrderedJson total = {{"days", sums.total.days}, {"machines", sums.total.machines}};
    add_sums(total, sums.total);
    add_of_machines(total, sums.total);
    total["planned_t"] = number_json(sums.total.planned_t.value_or(0.0), 4, sums.total.planned_t.has_value());
    const OrderedJson json = {{"podrate", kVersion},  {"days", days},   {"fields", fields},
                              {"machines", machines}, {"total", total}, {"notes", season.notes}};
    return json.dump(2, ' ', false, OrderedJson::error_handler_t::replace) + '\n';
}

}  // namespace podrate::sim
