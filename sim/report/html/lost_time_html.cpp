#include "report/html/lost_time_html.hpp"

#include <algorithm>

#include "hours/lost_time.hpp"
#include "hours/stop_list.hpp"
#include "log/number.hpp"
#include "report/html/bar_table.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/long_table.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

std::string tonnes_cell(bool known, double kg) {
    return known ? fixed(kg / 1e3, 2) : "not known";
}

std::string ranking_html(const std::vector<Lost>& ranking, const std::string& first_heading, bool by_kind,
                         const std::string& times_heading) {
    std::vector<BarRow> rows;
    for (const Lost& lost : ranking) {
        const bool unseen = by_kind && lost.kind == TimeKind::no_log;
        rows.push_back({{lost.name, duration_text(lost.seconds), fixed(100.0 * lost.share, 1),
                         fixed(100.0 * lost.cumulated_share, 1), std::to_string(lost.times),
                         tonnes_cell(!unseen, lost.forgone_kg)},
                        lost.seconds / ranking.front().seconds,
                        by_kind ? name_of(lost.kind) : "bar"});
    }
    return bar_table_html({first_heading, "time", "share, %", "cumulated, %", times_heading, "forgone, t"},
                          "longest = full length", rows);
}

std::string longest_stops_html(const Day& day, const DayResult& result) {
    std::vector<Stop> stops;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        const std::vector<Stop> more = stops_of(m.id, m.stretches, day.hours.stop_least_s);
        stops.insert(stops.end(), more.begin(), more.end());
    }
    if (stops.empty()) return "<p>No stop lasted that long.</p>\n";
    std::stable_sort(stops.begin(), stops.end(), [](const Stop& a, const Stop& b) {
        return a.stretch.end_us - a.stretch.start_us > b.stretch.end_us - b.stretch.start_us;
    });
    std::vector<std::vector<std::string>> rows;
    for (const Stop& stop : stops) {
        const Stretch& s = stop.stretch;
        rows.push_back({clock_cell(s.start_us, day, result), stop.machine, words_of(s.kind),
                        duration_text(s.seconds()),
                        s.place_known ? fixed(s.place.lat_deg, 5) + ", " + fixed(s.place.lon_deg, 5)
                                      : std::string("not known"),
                        tonnes_cell(stop.forgone_known, stop.forgone_kg)});
    }
    return long_table_html({"began", "machine", "what", "lasted", "latitude, longitude", "forgone, t"}, rows,
                           {1, 2});
}

constexpr const char* kHowForgone =
    "<p class=\"quiet\">Forgone: the length times the machine's own mean rate, peas into the hopper per hour "
    "of harvesting, from an hour before the stretch to an hour after it (over its whole log where less than "
    "10 min of harvest lie there). It is what the time was worth, not what could have been had: a hopper "
    "must "
    "be tipped and a headland turned on. No log: nothing tells what the machine did then.</p>\n";

}  // namespace

std::string lost_time_html(const Day& day, const DayResult& result) {
    const double least_s = day.hours.stop_least_s;
    const std::vector<Lost> kinds = lost_by_kind(result, least_s);
    if (kinds.empty()) return {};
    const std::string times = "times of " + fixed(least_s, 0) + " s or more";
    return "<h2>Time not spent harvesting, largest first</h2>\n<div class=\"pace\">" +
           ranking_html(kinds, "all machines", true, times) + "</div><div class=\"pace\">" +
           ranking_html(lost_by_machine(result, least_s), "machine", false, times) + "</div>\n" +
           kHowForgone + "<h2>Stops of " + fixed(least_s, 0) + " s or more, longest first</h2>\n" +
           longest_stops_html(day, result);
}

}  // namespace podrate::sim
