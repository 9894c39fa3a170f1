#include "report/html/maps_html.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "report/html/cividis.hpp"
#include "report/html/map_picture.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kMostFields = 12;  // drawn, those with most cells; the files hold all

const MapFigure kYieldFigure = {kYieldOfCell, "yield", "t/ha", 1, {MarkKind::tip, MarkKind::stop}};
const MapFigure kLossFigure = {
    kLossOfCell, "left on the ground", "kg/ha", 0, {MarkKind::heap, MarkKind::tray_check}};

std::vector<int> fields_drawn(const DayMap& map) {
    std::vector<std::pair<long, int>> counts;  // cells, negated, and field
    for (int field = -1; field < static_cast<int>(map.fields.size()); ++field) {
        const long cells = std::count_if(map.cells.begin(), map.cells.end(), [&](const MapCell& c) {
            return c.field == field && c.told(map.cell_m);
        });
        if (cells > 0) counts.emplace_back(-cells, field);
    }
    std::sort(counts.begin(), counts.end());
    if (counts.size() > kMostFields) counts.resize(kMostFields);
    std::vector<int> fields;
    for (const auto& [cells, field] : counts) fields.push_back(field);
    std::sort(fields.begin(), fields.end());
    return fields;
}

std::string swatch(const std::string& inside) {
    return "<svg viewBox=\"0 0 22 12\" aria-hidden=\"true\">" + inside + "</svg>";
}

std::string rgb_text(const Rgb& c) {
    return "rgb(" + std::to_string(c[0]) + "," + std::to_string(c[1]) + "," + std::to_string(c[2]) + ")";
}

const char* words_of(MarkKind kind) {
    switch (kind) {
        case MarkKind::tip: return "load tipped";
        case MarkKind::stop: return "stop";
        case MarkKind::heap: return "heap of haulm";
        case MarkKind::tray_check: return "tray checked";
    }
    return "";
}

std::string legend_html(const MapFigure& figure, const MapScale& scale) {
    std::string html = "<div class=\"legend\">";
    const auto entry = [&html](const std::string& picture, const std::string& words) {
        html += "<span>" + swatch(picture) + escaped(words) + "</span>";
    };
    const int steps = scale.steps();
    for (int i = 0; i <= steps; ++i) {
        const double value = scale.low + i * scale.step;
        entry("<rect width=\"22\" height=\"12\" fill=\"" +
                  rgb_text(cividis(static_cast<double>(i) / static_cast<double>(steps))) + "\"/>",
              (i == 0 ? "up to " : "") + fixed(value, figure.decimals) + " " + figure.unit +
                  (i == steps ? " and more" : ""));
    }
    const std::string ground = "<rect width=\"22\" height=\"12\" fill=\"" + rgb_text(cividis(0.5)) + "\"/>";
    const auto pct = [](double share) { return fixed(100.0 * share, 0) + " %"; };
    entry(ground + "<rect width=\"22\" height=\"12\" fill=\"url(#unsure)\"/>",
          "standard deviation over " + pct(figure.unsure_share) + " of the value");
    entry(ground + "<rect width=\"22\" height=\"12\" fill=\"url(#very-unsure)\"/>",
          "over " + pct(figure.very_unsure_share));
    for (const MarkKind kind : figure.marks) entry(mark_shape(kind, 11.0, 6.0), words_of(kind));
    return html + "</div>\n";
}

std::string at_share(const std::vector<double>& sorted, double share, int decimals) {
    return fixed(sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))], decimals);
}

// What the figure's sums and spread are, by field; all rows add up to the day's total.
std::string table_behind(const DayMap& map, const MapFigure& figure, double MapCell::*kg,
                         double unplaced_kg) {
    std::vector<std::vector<std::string>> rows;
    double all_kg = unplaced_kg;
    for (int field = -1; field < static_cast<int>(map.fields.size()); ++field) {
        std::vector<double> values;
        double sum_kg = 0.0;
        double cut_m2 = 0.0;
        double sd_sum = 0.0;
        bool any = false;
        for (const MapCell& c : map.cells) {
            if (c.field != field) continue;
            any = true;
            sum_kg += c.*kg;
            cut_m2 += c.cut_m2;
            const std::optional<double> value = figure.value(c, map.cell_m);
            if (!value) continue;
            values.push_back(*value);
            sd_sum += figure.sd_share(c) * *value;
        }
        if (!any) continue;
        all_kg += sum_kg;
        std::sort(values.begin(), values.end());
        const std::string name =
            field < 0 ? std::string("in no field") : map.fields[static_cast<std::size_t>(field)];
        std::vector<std::string> row = {name, std::to_string(values.size()), fixed(cut_m2 / 1e4, 2),
                                        fixed(sum_kg, 0)};
        for (const double share : {0.1, 0.5, 0.9})
            row.push_back(values.empty() ? std::string() : at_share(values, share, figure.decimals + 1));
        row.push_back(values.empty()
                          ? std::string()
                          : fixed(sd_sum / static_cast<double>(values.size()), figure.decimals + 1));
        rows.push_back(row);
    }
    rows.push_back({"no place known", "", "", fixed(unplaced_kg, 0), "", "", "", ""});
    rows.push_back({"all", "", "", fixed(all_kg, 0), "", "", "", ""});
    const std::string unit = std::string(", ") + figure.unit;
    return "<details><summary>The figures behind this map</summary>" +
           table_html(
               {"field", "cells", "cut, ha", "kg", "a tenth of the cells below" + unit, "half below" + unit,
                "nine tenths below" + unit, "standard deviation of a cell, mean" + unit},
               rows) +
           "</details>\n";
}

std::string figure_html(DayMap& map, const std::vector<int>& fields, const MapFigure& figure,
                        double MapCell::*kg, double unplaced_kg) {
    const MapScale scale = map_scale(map, figure);
    std::string html =
        "<h3>" + std::string(figure.title) + ", " + figure.unit + "</h3>\n<div class=\"maps\">\n";
    for (const int field : fields) {
        const std::string picture = map_picture_svg(map, field, figure, scale);
        if (picture.empty()) continue;
        const std::string name =
            field < 0 ? std::string("In no field") : map.fields[static_cast<std::size_t>(field)];
        html += "<figure><figcaption>" + escaped(name) + "</figcaption>" + picture + "</figure>\n";
    }
    return html + "</div>\n" + legend_html(figure, scale) + table_behind(map, figure, kg, unplaced_kg);
}

constexpr const char* kMapPatterns =
    "<svg width=\"0\" height=\"0\" style=\"position:absolute;border:0\" aria-hidden=\"true\"><defs>"
    "<pattern id=\"unsure\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
    "<path class=\"unsure-line\" d=\"M-1,1L1,-1M0,6L6,0M5,7L7,5\"/></pattern>"
    "<pattern id=\"very-unsure\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\">"
    "<path class=\"unsure-line\" d=\"M0,5L5,0M0,0L5,5\"/></pattern></defs></svg>\n";

}  // namespace

std::string maps_html(const DayResult& result) {
    if (!result.map) return {};
    DayMap map = *result.map;
    const std::vector<int> fields = fields_drawn(map);
    if (fields.empty()) return {};
    std::string html = std::string("<h2>Maps</h2>\n") + kMapPatterns;
    html += figure_html(map, fields, kYieldFigure, &MapCell::harvested_kg, map.unplaced_kg);
    html += figure_html(map, fields, kLossFigure, &MapCell::lost_kg, map.unplaced_lost_kg);
    return html + "<p class=\"quiet\">Cells of " + shown(map.cell_m) + " m on " + escaped(map.plane.name()) +
           " (EPSG " + std::to_string(map.plane.epsg()) +
           "). Peas lie where they were cut: the drum's delay and spread are taken off by looking back at "
           "the day. "
           "The loss follows the rate at which peas passed, and a loss sensor's word where there is one; how "
           "high "
           "it is altogether all cells of a machine share, so that doubt is the same everywhere. The same "
           "maps for "
           "other programs: map.gpkg, map.tif, map_cells.geojson, map_cells.csv.</p>\n";
}

}  // namespace podrate::sim
