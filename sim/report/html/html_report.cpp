#include "report/html/html_report.hpp"

#include "analysis/field_capacity.hpp"
#include "day/local_time.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "podrate/version.hpp"
#include "report/html/alarms_html.hpp"
#include "report/html/charts.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/contents.hpp"
#include "report/html/fields_html.hpp"
#include "report/html/freshness_html.hpp"
#include "report/html/loss_html.hpp"
#include "report/html/lost_time_html.hpp"
#include "report/html/maps_html.hpp"
#include "report/html/markup.hpp"
#include "report/html/maturity_html.hpp"
#include "report/html/pauses_html.hpp"
#include "report/html/plan_html.hpp"
#include "report/html/shifts_html.hpp"
#include "report/html/style.hpp"
#include "report/html/time_schemes_html.hpp"
#include "report/loads_csv.hpp"

namespace podrate::sim {
namespace {

const std::string kPlusMinus = " \xC2\xB1 ";

std::string tile(const std::string& figure, const std::string& words) {
    return "<div class=\"tile\"><b>" + escaped(figure) + "</b><span>" + escaped(words) + "</span></div>\n";
}

std::size_t count_loads(const DayResult& result) {
    std::size_t loads = 0;
    for (const MachineResult& machine : result.machines) loads += machine.loads.size();
    return loads;
}

std::string tiles_html(const DayResult& result) {
    std::string html = "<div class=\"tiles\">\n";
    html +=
        tile(fixed(result.harvested_t, 2) + " t",
             "harvested," + kPlusMinus + fixed(kReach90 * result.harvested_sd_t, 2) + " t (9 times in 10)");
    if (result.planned_t) {
        const double short_t = *result.planned_t - result.harvested_t;
        html += tile(fixed(short_t < 0 ? -short_t : short_t, 2) + " t",
                     std::string(short_t < 0 ? "more" : "less") + " than the plan's " +
                         fixed(*result.planned_t, 1) + " t");
    }
    html += tile(fixed(result.area_ha, 2) + " ha", "harvested");
    html += tile(fixed(result.yield_tpha, 2) + " t/ha", "into the hopper");
    html += tile(std::to_string(count_loads(result)), "loads tipped");
    return html + "</div>\n";
}

// Machines that are not in the sums, said where the sums stand.
std::string missing_html(const DayResult& result) {
    std::string names;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) names += (names.empty() ? "" : ", ") + m.id;
    }
    if (names.empty()) return {};
    return "<p class=\"bad\"><b>Without " + escaped(names) +
           "</b>: the log could not be used (see below), so every sum here lacks it.</p>\n";
}

std::string machines_html(const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        const auto harvested = static_cast<double>(m.last.harvested_kg);
        const auto sd = static_cast<double>(m.last.harvested_sd_kg);
        rows.push_back({m.id, fixed(harvested / 1e3, 2) + kPlusMinus + fixed(kReach90 * sd / 1e3, 2),
                        fixed(static_cast<double>(m.last.area_m2) / 1e4, 2), fixed(m.yield_tpha(), 2),
                        fixed(m.load_rate_tph(), 2), std::to_string(m.loads.size()),
                        fixed(static_cast<double>(m.last.mass_kg), 0)});
    }
    return table_html({"machine", "harvested, t", "area, ha", "yield, t/ha",
                       "load rate while harvesting, t/h", "loads", "left in hopper, kg"},
                      rows);
}

std::string times_html(const DayResult& result) {
    std::vector<std::vector<std::string>> times;
    std::vector<std::vector<std::string>> pace;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        std::vector<std::string> row = {m.id};
        for (int i = 0; i < kWorkStates; ++i)
            row.push_back(duration_text(m.seconds(static_cast<WorkState>(i))));
        row.push_back(duration_text(m.seconds_without_data));
        times.push_back(row);
        const FieldWork work = field_work(m);
        pace.push_back({m.id, fixed(work.speed_kmh, 1), fixed(100 * work.efficiency, 0),
                        fixed(work.capacity_ha_per_h, 2)});
    }
    return "<div class=\"pace\">" +
           table_html({"machine", "harvesting", "turning", "paused in crop", "waiting to tip", "tipping",
                       "travelling", "stopped", "no data"},
                      times) +
           "</div><div class=\"pace\">" +
           table_html({"machine", "speed while harvesting, km/h", "field efficiency, %", "work rate, ha/h"},
                      pace) +
           "</div>\n";
}

std::string ledger_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const MachineResult& m : result.machines) {
        for (const Load& load : m.loads) {
            const auto net = static_cast<double>(load.net_kg);
            rows.push_back(
                {m.id, std::to_string(load.number), clock_cell(load.end_us, day, result),
                 fixed(net, 0) + kPlusMinus + fixed(kReach90 * static_cast<double>(load.net_sd_kg), 0),
                 fixed(static_cast<double>(load.area_m2) / 1e4, 3), fixed(yield_tpha_of(load), 2),
                 fixed(oldest_pea_min(load), 0)});
        }
    }
    if (rows.empty()) return "<p>No load was tipped.</p>\n";
    return table_html(
        {"machine", "load", "tipped at", "net, kg", "area, ha", "yield, t/ha", "oldest pea, min"}, rows);
}

std::string problems_html(const Day& day, const DayResult& result) {
    Problems all;
    all.append(day.problems);
    std::string refused;
    for (const MachineResult& m : result.machines) {
        all.append(m.problems);
        if (!m.usable) refused += "<p class=\"bad\">" + escaped(m.id + ": " + m.refusal) + "</p>\n";
    }
    if (all.count() == 0 && refused.empty()) return {};
    std::string html = "<h2>What could not be used as it stood</h2>\n" + refused;
    if (all.count() == 0) return html;
    std::vector<std::vector<std::string>> rows;
    for (const Problem& p : all.kept()) {
        rows.push_back({std::string(p.note ? "note" : "left out"), p.file,
                        p.line > 0 ? std::to_string(p.line) : "", p.reason, p.mend});
    }
    html += table_html({"", "file", "line", "what", "what was done, or can be"}, rows, {1, 3, 4});
    if (all.count() > all.kept().size()) {
        html += "<p class=\"quiet\">and " + std::to_string(all.count() - all.kept().size()) + " more.</p>\n";
    }
    return html;
}

constexpr const char* kContents = "<!-- contents -->";

constexpr const char* kNotes = R"(<h2>What the figures mean</h2>
<p><b>Harvested</b>: peas that reached the hoppers, tipped or still in them. <b>Yield</b>: the same per area harvested; what was lost is not in it.
<b>Load rate</b>: peas into the hopper per hour, after the drum. <b>Field efficiency</b>: share of the time in the field spent harvesting.</p>
<p><b>9 times in 10</b>: the truth lies within the range nine times out of ten, as far as the weigh cells are in calibration.</p>
<p><b>Loss</b>: share of the peas that stood where the machine cut. In the drum: what it throws out with the haulm. By the reel: what it leaves or knocks off.
Weight and speed hardly see how high it is, so without peas counted on the ground the range is wide.</p>
<p class="quiet">Estimates, not a weighbridge. For work on the machine, tipping, slopes and road travel the operator's manual and local rules come first.</p>
)";

std::string period_text(const Day& day, const DayResult& result) {
    const LocalTime first = local_time(result.first_us, day.time_zone);
    const LocalTime last = local_time(result.last_us, day.time_zone);
    const std::string end = last.date == first.date ? last.hh_mm() : last.date + ' ' + last.hh_mm();
    return first.date + ", " + first.hh_mm() + " to " + end + " (" + day.time_zone + ")";
}

}  // namespace

std::string html_report(const Day& day, const DayResult& result) {
    std::string html = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
            escaped(day.label) + "</title>\n<style>" + kStyle + "</style></head>\n<body>" +
            pattern_definitions_svg() + "<main>\n";
    html += "<h1>" + escaped(day.label) + "</h1>\n<p class=\"quiet\">" + escaped(period_text(day, result)) +
            "</p>\n";
    html += missing_html(result);
    html += tiles_html(result);
    html += kContents;
    html += plan_html(day, result);
    html += "<h2>Load rate and work, machine by machine</h2>\n";
    for (const MachineResult& machine : result.machines) {
        if (machine.usable) html += machine_timeline_svg(machine, day, result);
    }
    html += state_legend_html();
    html += "<h2>Machines</h2>\n" + machines_html(result);
    html += loss_html(result);
    html += fields_html(result);
    html += maps_html(result);
    html += maturity_html(day, result);
    html += "<h2>Loads</h2>\n" + ledger_html(day, result);
    html += trailer_waits_html(day, result);
    html += freshness_html(day, result);
    html += shifts_html(day, result);
    html += "<h2>Where the time went</h2>\n" + times_html(result);
    html += lost_time_html(day, result);
    html += time_schemes_html(result);
    html += pauses_html(day, result);
    html += alarms_html(day, result);
    html += problems_html(day, result);
    html += kNotes;
    html += std::string("<p class=\"quiet\">podrate ") + kVersion + "</p>\n</main></body></html>\n";
    return with_contents(html, kContents);
}

}  // namespace podrate::sim
