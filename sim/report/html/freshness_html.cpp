#include "report/html/freshness_html.hpp"

#include "hours/freshness.hpp"
#include "log/number.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/long_table.hpp"

namespace podrate::sim {
namespace {

std::string known_or_not(const std::optional<double>& value, double scale) {
    return value ? fixed(scale * *value, 0) : "not known";
}

std::string how_it_was_told(const HoursKeys& keys) {
    const std::string clock =
        keys.fresh_from == FreshFrom::cutting ? "cutting" : "leaving the field (the tip)";
    return "<p class=\"quiet\">Peas that came into the hopper were cut the drum's dead time and lag earlier; "
           "half "
           "of a load, by mass, is older than its median pea. Intake: " +
           fixed(keys.road_min, 0) +
           " min of road after the tip (<code>road_min</code>); what a trailer waits for more loads or at "
           "the "
           "gate is not in the logs. The limit: " +
           fixed(keys.fresh_limit_min, 0) + " min from " + clock +
           " to the intake (<code>fresh_limit_min</code>, <code>fresh_from</code>).</p>\n";
}

}  // namespace

std::string freshness_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    double kg = 0.0;
    double over_kg = 0.0;
    for (const MachineResult& m : result.machines) {
        for (const Freshness& f : freshness_of(m, day.hours)) {
            rows.push_back({m.id, std::to_string(f.load), clock_cell(f.tipped_us, day, result),
                            fixed(f.oldest_min, 0), known_or_not(f.median_min, 1.0),
                            fixed(f.intake_oldest_min, 0), known_or_not(f.intake_median_min, 1.0),
                            known_or_not(f.over_limit, 100.0)});
            if (!f.over_limit) continue;
            kg += f.net_kg;
            over_kg += *f.over_limit * f.net_kg;
        }
    }
    if (rows.empty()) return {};
    std::string html = "<h2>How fresh the peas were</h2>\n";
    if (kg > 0.0) {
        html += "<p>" + fixed(over_kg / 1e3, 2) + " t of " + fixed(kg / 1e3, 2) + " t (" +
                fixed(100.0 * over_kg / kg, 1) + " %) came to the intake beyond the limit.</p>\n";
    }
    return html +
           long_table_html(
               {"machine", "load", "tipped at", "oldest at the tip, min", "median at the tip, min",
                "oldest at the intake, min", "median at the intake, min", "beyond the limit, %"},
               rows, {}) +
           how_it_was_told(day.hours);
}

}  // namespace podrate::sim
