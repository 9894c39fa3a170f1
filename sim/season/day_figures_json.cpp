#include <nlohmann/json.hpp>

#include "season/day_figures.hpp"

namespace podrate::sim {
namespace {

using Json = nlohmann::json;

}  // namespace

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SeasonMachine, id, usable, harvested_kg, harvested_sd_kg, area_m2, lost_kg,
                                   lost_sd_kg, harvesting_s, rows, loads, first_us, last_us)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SeasonField, name, bounded, elsewhere, covered_m2)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SeasonShare, machine, field, harvested_kg, swept_m2, lost_kg, lost_sd_kg,
                                   harvesting_s, in_field_s)

std::string day_figures_json(const DayFigures& figures, const std::string& stamp) {
    const Json json = {{"stamp", stamp},
                       {"label", figures.label},
                       {"date", figures.date},
                       {"reason", figures.reason},
                       {"whole", figures.use == DayUse::whole},
                       {"planned_t", figures.planned_t ? Json(*figures.planned_t) : Json(nullptr)},
                       {"machines", figures.machines},
                       {"fields", figures.fields},
                       {"shares", figures.shares}};
    return json.dump(1, ' ', false, Json::error_handler_t::replace) + '\n';
}

DayFigures read_day_figures(const std::string& text, std::string& stamp) {
    const Json json = Json::parse(text);
    DayFigures figures;
    json.at("stamp").get_to(stamp);
    json.at("label").get_to(figures.label);
    json.at("date").get_to(figures.date);
    json.at("reason").get_to(figures.reason);
    figures.use = json.at("whole").get<bool>() ? DayUse::whole : DayUse::in_part;
    if (!json.at("planned_t").is_null()) figures.planned_t = json.at("planned_t").get<double>();
    json.at("machines").get_to(figures.machines);
    json.at("fields").get_to(figures.fields);
    json.at("shares").get_to(figures.shares);
    for (const SeasonShare& share : figures.shares) {
        if (share.machine >= figures.machines.size() || share.field >= figures.fields.size())
            throw std::out_of_range("shares");
    }
    return figures;
}

}  // namespace podrate::sim
