#include "season/season_html.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "log/units.hpp"
#include "podrate/version.hpp"
#include "report/html/bar_table.hpp"
#include "report/html/markup.hpp"
#include "report/html/style.hpp"
#include "season/season_charts.hpp"

namespace podrate::sim {
namespace {

using SeasonRows = std::vector<std::vector<std::string>>;

std::string with_reach(double kg, double sd_kg) {
    return fixed(kg / 1e3, 2) + " \xC2\xB1 " + fixed(kReach90 * sd_kg / 1e3, 2);
}

std::string loss_words(const std::optional<Share>& loss) {
    if (!loss) return {};
    const auto pct = [](Real share) { return fixed(100.0 * static_cast<double>(share), 1); };
    return pct(loss->share) + " (" + pct(loss->low) + " to " + pct(loss->high) + ")";
}

std::string if_known(bool known, double value, int decimals) {
    return known ? fixed(value, decimals) : std::string();
}

std::string season_tile(const std::string& figure, const std::string& words) {
    return "<div class=\"tile\"><b>" + escaped(figure) + "</b><span>" + escaped(words) + "</span></div>\n";
}

std::string season_tiles(const SeasonSums& sums) {
    const SeasonSum& total = sums.total;
    std::string html = "<div class=\"tiles\">\n";
    html += season_tile(
        fixed(total.harvested_kg / 1e3, 1) + " t",
        "harvested, \xC2\xB1 " + fixed(kReach90 * total.harvested_sd_kg / 1e3, 1) + " t (9 times in 10)");
    html += season_tile(fixed(total.swept_m2 / 1e4, 1) + " ha", "width times distance");
    html += season_tile(fixed(tonnes_per_hectare(total.harvested_kg, total.swept_m2), 2) + " t/ha",
                        "into the hopper");
    if (const std::optional<Share> loss = total.loss()) {
        const auto pct = [](Real share) { return fixed(100.0 * static_cast<double>(share), 1); };
        html += season_tile(pct(loss->share) + " %",
                            "lost, " + pct(loss->low) + " to " + pct(loss->high) + " % (9 times in 10)");
    }
    html += season_tile(std::to_string(total.days), "days counted");
    return html + "</div>\n";
}

// Days that are not in the sums, said where the sums stand.
std::string days_left_out(const Season& season) {
    const auto missing = std::count_if(season.days.begin(), season.days.end(),
                                       [](const DayFigures& day) { return !day.counts(); });
    std::string html;
    if (missing > 0) {
        html = "<p class=\"bad\"><b>Without " + std::to_string(missing) + (missing == 1 ? " day" : " days") +
               "</b>, named below with the reason: every sum here lacks " + (missing == 1 ? "it" : "them") +
               ".</p>\n";
    }
    for (const std::string& note : season.notes) html += "<p class=\"bad\">" + escaped(note) + "</p>\n";
    return html;
}

// `planned`: with a cell for the plan.
std::vector<std::string> sum_cells(const SeasonSum& sum, bool planned) {
    std::vector<std::string> cells = {
        std::to_string(sum.machines),
        std::to_string(sum.loads),
        with_reach(sum.harvested_kg, sum.harvested_sd_kg),
        fixed(sum.swept_m2 / 1e4, 2),
        if_known(sum.swept_m2 > 0.0, tonnes_per_hectare(sum.harvested_kg, sum.swept_m2), 2),
        loss_words(sum.loss()),
        fixed(sum.harvesting_s / 3600.0, 1)};
    if (planned) cells.push_back(if_known(sum.planned_t.has_value(), sum.planned_t.value_or(0.0), 1));
    return cells;
}

std::string days_table(const Season& season, const SeasonSums& sums) {
    const bool planned = sums.total.planned_t.has_value();
    std::vector<std::string> headings = {"date",        "day",          "machines",
                                         "loads",       "harvested, t", "area, ha",
                                         "yield, t/ha", "lost, %",      "hours harvesting"};
    if (planned) headings.emplace_back("planned, t");
    SeasonRows rows;
    const auto add = [&](const std::string& date, const std::string& name, const SeasonSum& sum) {
        rows.push_back({date, name});
        const std::vector<std::string> cells = sum_cells(sum, planned);
        rows.back().insert(rows.back().end(), cells.begin(), cells.end());
    };
    for (std::size_t i = 0; i < season.days.size(); ++i) {
        const DayFigures& day = season.days[i];
        if (day.counts()) add(day.date, day.label + (day.use == DayUse::whole ? "" : " *"), sums.days[i]);
    }
    add("total", std::to_string(sums.total.days) + " days", sums.total);
    return "<h2>Days</h2>\n" + table_html(headings, rows);
}

std::string not_whole_table(const Season& season) {
    SeasonRows rows;
    for (const DayFigures& day : season.days) {
        if (day.use == DayUse::whole) continue;
        rows.push_back({day.date, day.label + (day.counts() ? " *" : ""), name_of(day.use), day.reason});
    }
    if (rows.empty()) return {};
    return "<h2>Days that are not whole</h2>\n" + table_html({"date", "day", "used", "why"}, rows, {1, 2, 3});
}

std::string season_fields(const SeasonSums& sums) {
    if (sums.fields.empty()) return {};
    double most_tpha = 0.0;
    const auto yield_of = [](const SeasonSum& sum) {
        return tonnes_per_hectare(sum.harvested_kg, sum.covered_m2);
    };
    for (const SeasonSum& sum : sums.fields) most_tpha = std::max(most_tpha, yield_of(sum));
    std::vector<BarRow> rows;
    for (const SeasonSum& sum : sums.fields) {
        const bool on_ground = sum.covered_m2 > 0.0;
        rows.push_back({{sum.name, std::to_string(sum.days), fixed(sum.harvested_kg / 1e3, 2),
                         if_known(on_ground, sum.covered_m2 / 1e4, 2), if_known(on_ground, yield_of(sum), 2),
                         loss_words(sum.loss())},
                        most_tpha > 0.0 ? yield_of(sum) / most_tpha : 0.0,
                        "harvesting"});
    }
    return "<h2>Fields</h2>\n" +
           bar_table_html({"field", "days", "harvested, t", "ground harvested, ha", "yield, t/ha", "lost, %"},
                          "yield", rows) +
           "<p class=\"quiet\">Ground counts once a day, however often it was driven over. Peas belong to "
           "the "
           "field where they were cut.</p>\n";
}

std::string season_machines(const SeasonSums& sums) {
    SeasonRows rows;
    for (const SeasonSum& sum : sums.machines) {
        rows.push_back({sum.name, std::to_string(sum.days), std::to_string(sum.loads),
                        with_reach(sum.harvested_kg, sum.harvested_sd_kg), fixed(sum.swept_m2 / 1e4, 2),
                        if_known(sum.swept_m2 > 0.0, tonnes_per_hectare(sum.harvested_kg, sum.swept_m2), 2),
                        loss_words(sum.loss()), fixed(sum.harvesting_s / 3600.0, 1)});
    }
    return "<h2>Machines</h2>\n" + table_html({"machine", "days", "loads", "harvested, t", "area, ha",
                                               "yield, t/ha", "lost, %", "hours harvesting"},
                                              rows);
}

std::string season_period(const Season& season) {
    std::string first;
    std::string last;
    for (const DayFigures& day : season.days) {
        if (!day.counts()) continue;
        if (first.empty()) first = day.date;
        last = day.date;
    }
    return first == last ? first : first + " to " + last;
}

}  // namespace

std::string season_html(const Season& season, const SeasonSums& sums) {
    std::string html = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
    html +=
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>Season</title>\n";
    html += std::string("<style>") + kStyle + "</style></head>\n<body><main>\n<h1>Season</h1>\n";
    html += "<p class=\"quiet\">" + escaped(season_period(season)) + "</p>\n";
    html += days_left_out(season) + season_tiles(sums);
    html += tonnes_by_day_svg(season, sums) + loss_by_day_svg(season, sums);
    html += season_fields(sums) + season_machines(sums);
    html += days_table(season, sums) + not_whole_table(season);
    html +=
        "<p class=\"quiet\">Harvested: \xC2\xB1 holds the truth 9 times in 10, as far as the weigh cells are "
        "in "
        "calibration; a machine's days share its calibration, so its doubts are added up. Lost: of the peas "
        "that "
        "stood; days, fields and machines share most of that doubt, so a season knows it hardly better than "
        "a "
        "day.</p>\n";
    return html + "<p class=\"quiet\">podrate " + kVersion + "</p>\n</main></body></html>\n";
}

}  // namespace podrate::sim
