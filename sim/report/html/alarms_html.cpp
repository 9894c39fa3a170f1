#include "report/html/alarms_html.hpp"

#include <algorithm>

#include "log/number.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/long_table.hpp"
#include "report/html/markup.hpp"

namespace podrate::sim {
namespace {

// Rows: kinds that came; columns: machines.
std::string kinds_html(const DayResult& result) {
    std::vector<std::string> headings = {"alarm"};
    std::vector<AlarmSums> sums;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        headings.push_back(m.id);
        sums.push_back(alarm_sums(m.alarms));
    }
    headings.insert(headings.end(), {"stood in all", "chattered"});
    std::vector<std::vector<std::string>> rows;
    for (std::size_t kind = 0; kind < static_cast<std::size_t>(kAlarms); ++kind) {
        AlarmKindSum all;
        std::vector<std::string> row = {words_for(static_cast<AlarmId>(kind))};
        for (const AlarmSums& machine : sums) {
            row.push_back(std::to_string(machine[kind].count));
            all.count += machine[kind].count;
            all.seconds += machine[kind].seconds;
            all.chatters += machine[kind].chatters;
        }
        if (all.count == 0) continue;
        row.insert(row.end(),
                   {duration_text(all.seconds), all.chatters > 0 ? std::to_string(all.chatters) : "no"});
        rows.push_back(row);
    }
    std::vector<std::string> often = {"all, each 10 min of work"};
    for (const MachineResult& m : result.machines) {
        if (m.usable) often.push_back(fixed(alarms_per_10_min(m), 1));
    }
    often.insert(often.end(), {"", ""});
    rows.push_back(often);
    return table_html(headings, rows);
}

struct Told {
    const MachineResult* machine;
    AlarmEvent event;
};

std::string list_html(const Day& day, const DayResult& result) {
    std::vector<Told> all;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        for (const AlarmEvent& event : m.alarms) all.push_back({&m, event});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Told& a, const Told& b) { return a.event.start_us < b.event.start_us; });
    std::vector<std::vector<std::string>> rows;
    for (const Told& told : all) {
        rows.push_back({clock_cell(told.event.start_us, day, result), told.machine->id,
                        words_for(told.event.alarm),
                        duration_text(static_cast<double>(told.event.end_us - told.event.start_us) / 1e6)});
    }
    return long_table_html({"began", "machine", "alarm", "lasted"}, rows, {1, 2});
}

bool any_alarm(const DayResult& result) {
    return std::any_of(result.machines.begin(), result.machines.end(),
                       [](const MachineResult& m) { return m.usable && !m.alarms.empty(); });
}

constexpr const char* kHowOften =
    "<p class=\"quiet\">Chattered: how many times an alarm came three times within a minute. Work: "
    "harvesting, "
    "turning, pausing, waiting and tipping. For control rooms the usual figure is at most about one alarm in "
    "10 "
    "minutes for each person (EEMUA 191, known to us from secondary sources); a cab is no control "
    "room.</p>\n";

}  // namespace

std::string alarms_html(const Day& day, const DayResult& result) {
    if (!any_alarm(result)) return "<h2>Alarms</h2>\n<p>None came.</p>\n";
    return "<h2>Alarms</h2>\n<div class=\"pace\">" + kinds_html(result) + "</div>" + kHowOften +
           list_html(day, result);
}

}  // namespace podrate::sim
