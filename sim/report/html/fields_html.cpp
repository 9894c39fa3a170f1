#include "report/html/fields_html.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string figure_or_blank(bool known, double value, int decimals) {
    return known ? fixed(value, decimals) : std::string();
}

std::string loss_pct_text(const FieldFigures& f) {
    if (!f.loss) return {};
    const auto pct = [](Real share) { return fixed(100.0 * static_cast<double>(share), 1); };
    return pct(f.loss->share) + " (" + pct(f.loss->low) + " to " + pct(f.loss->high) + ")";
}

std::string lost_kg_text(const FieldFigures& f) {
    if (!f.loss || f.covered_m2 <= 0.0) return {};
    const auto kg = [&f](Real share) { return fixed(f.lost_kg_per_ha(share), 0); };
    return kg(f.loss->share) + " (" + kg(f.loss->low) + " to " + kg(f.loss->high) + ")";
}

std::string crop_table(const std::vector<FieldFigures>& fields) {
    Rows rows;
    for (const FieldFigures& f : fields) {
        rows.push_back({f.name, figure_or_blank(f.bounded, f.field_m2 / 1e4, 2),
                        figure_or_blank(!f.elsewhere, f.covered_m2 / 1e4, 2),
                        figure_or_blank(f.bounded, f.left_m2 / 1e4, 2), fixed(f.harvested_kg / 1e3, 2),
                        figure_or_blank(f.covered_m2 > 0.0, f.yield_tpha(), 2), loss_pct_text(f),
                        lost_kg_text(f)});
    }
    return table_html({"field", "boundary, ha", "harvested, ha", "left, ha", "harvested, t", "yield, t/ha",
                       "lost, %", "left on the ground, kg/ha"},
                      rows);
}

std::string work_table(const std::vector<FieldFigures>& fields) {
    const bool any_cost =
        std::any_of(fields.begin(), fields.end(), [](const FieldFigures& f) { return f.cost.has_value(); });
    Rows rows;
    for (const FieldFigures& f : fields) {
        if (f.in_field_h <= 0.0) continue;
        rows.push_back({f.name, std::to_string(f.machines), fixed(f.in_field_h, 2),
                        figure_or_blank(f.covered_m2 > 0.0, f.work_rate_ha_per_h, 2),
                        fixed(f.capacity_ha_per_h, 2), fixed(100.0 * f.efficiency, 0)});
        if (any_cost) rows.back().push_back(figure_or_blank(f.cost.has_value(), f.cost.value_or(0.0), 0));
    }
    if (rows.empty()) return {};
    std::vector<std::string> headings = {"field",
                                         "machines",
                                         "hours of machines",
                                         "ground harvested in an hour of a machine, ha",
                                         "with overlap, ha/h",
                                         "field efficiency, %"};
    if (any_cost) headings.emplace_back("cost");
    return table_html(headings, rows);
}

std::string notes(const std::vector<FieldFigures>& fields) {
    const auto any = [&fields](auto has) { return std::any_of(fields.begin(), fields.end(), has); };
    std::string text =
        "Ground counts once, however often it was driven over; slits of up to a metre between bouts are "
        "taken "
        "for the receiver's wandering. Peas belong to the field where they were cut.";
    if (any([](const FieldFigures& f) { return f.bounded; }))
        text += " Harvested and left: within the boundary.";
    if (any([](const FieldFigures& f) { return !f.bounded && !f.elsewhere; }))
        text += " A field with a letter has no boundary: it was found from where crop was cut.";
    if (any([](const FieldFigures& f) { return f.elsewhere; }))
        text += " Elsewhere: what came while no place was known, or from no field.";
    if (any([](const FieldFigures& f) { return f.cost.has_value(); }))
        text +=
            " Cost: hours in the field, road travel not counted, times what an hour of each machine costs.";
    std::string html = "<p class=\"quiet\">" + text + "</p>\n";
    for (const FieldFigures& f : fields) {
        constexpr double kWorthSayingM2 = 500.0;
        if (f.beyond_m2 < kWorthSayingM2) continue;
        html +=
            "<p class=\"quiet\">" + escaped(f.name) + ": " + fixed(f.beyond_m2 / 1e4, 2) +
            " ha more were cut beside the boundary; the yield holds their peas but not their ground.</p>\n";
    }
    return html;
}

}  // namespace

std::string fields_html(const DayResult& result) {
    if (result.fields.empty()) return {};
    return "<h2>Fields</h2>\n" + crop_table(result.fields) + work_table(result.fields) + notes(result.fields);
}

}  // namespace podrate::sim
