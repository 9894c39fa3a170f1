#include "report/html/handover_html.hpp"

#include <algorithm>

#include "day/local_time.hpp"
#include "hours/shift_totals.hpp"
#include "log/number.hpp"
#include "podrate/version.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/markup.hpp"
#include "report/html/moment.hpp"
#include "report/html/shifts_html.hpp"
#include "report/html/style.hpp"
#include "report/plan_words.hpp"

namespace podrate::sim {
namespace {

constexpr double kWorthGoingM2 = 500.0;

std::string since_text(const MachineResult& m, const Day& day, const DayResult& result) {
    if (m.stretches.empty()) return words_of(kind_of(m.last.state));
    const Stretch& now = m.stretches.back();
    // The state of the very last row has no length yet.
    if (now.kind != kind_of(m.last.state)) return words_of(kind_of(m.last.state));
    return std::string(words_of(now.kind)) + " since " + clock_cell(now.start_us, day, result);
}

std::string age_text(const MachineResult& m) {
    if (m.last.oldest_cut_us == 0) return "empty";
    return duration_text(static_cast<double>(m.last_us - m.last.oldest_cut_us) / 1e6);
}

std::string now_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) {
            rows.push_back({m.id, "log could not be used", "", "", "", ""});
            continue;
        }
        rows.push_back({m.id, since_text(m, day, result), clock_cell(m.last_us, day, result),
                        fixed(static_cast<double>(m.last.mass_kg), 0),
                        fixed(100.0 * static_cast<double>(m.last.level_share), 0), age_text(m)});
    }
    return "<h2>Machines and hoppers</h2>\n" + table_html({"machine", "what it does", "log ends at",
                                                           "in hopper, kg", "full, %", "oldest pea aboard"},
                                                          rows, {1});
}

std::string standing_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        for (const AlarmEvent& event : m.alarms) {
            const bool stands = (m.last.alarms >> static_cast<unsigned>(event.alarm) & 1U) != 0;
            if (!stands || event.end_us < m.last_us) continue;
            rows.push_back({m.id, words_for(event.alarm), clock_cell(event.start_us, day, result)});
        }
    }
    if (rows.empty()) return "<h2>Alarms standing</h2>\n<p>None.</p>\n";
    return "<h2>Alarms standing</h2>\n" + table_html({"machine", "alarm", "since"}, rows, {1});
}

// A row a machine: its newest load, and the one before.
std::string last_loads_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const MachineResult& m : result.machines) {
        const std::size_t count = m.loads.size();
        if (count == 0) continue;
        std::vector<std::string> row = {m.id};
        for (std::size_t back = 1; back <= 2; ++back) {
            const bool has = back <= count;
            const Load load = has ? m.loads[count - back] : Load{};
            row.push_back(has ? std::to_string(load.number) : "");
            row.push_back(has ? clock_cell(load.end_us, day, result) : "");
            row.push_back(has ? fixed(static_cast<double>(load.net_kg), 0) : "");
        }
        rows.push_back(row);
    }
    if (rows.empty()) return "<h2>Last loads</h2>\n<p>No load was tipped.</p>\n";
    return "<h2>Last loads</h2>\n" +
           table_html({"machine", "load", "tipped at", "net, kg", "the one before", "tipped at", "net, kg"},
                      rows);
}

std::string totals_html(const Day& day, const DayResult& result) {
    const std::vector<Shift> shifts = shifts_of(day, result);
    return "<h2>This shift</h2>\n" + shift_table_html({shifts.back()}, day, result);
}

// What is left of the fields, and until when it is wanted.
std::string fields_left_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const FieldFigures& f : result.fields) {
        if (!f.bounded || f.left_m2 < kWorthGoingM2) continue;
        rows.push_back({f.name, fixed(f.left_m2 / 1e4, 2), "", "", ""});
        for (const FieldMaturity& m : result.maturity) {
            if (m.field != f.name) continue;
            rows.back()[2] =
                fixed(m.now.middle, 0) + " (" + fixed(m.now.low, 0) + " to " + fixed(m.now.high, 0) + ")";
            if (!m.window) continue;
            rows.back()[3] = fixed(m.window->low, 0) + " to " + fixed(m.window->high, 0);
            rows.back()[4] = moment_text(m.leaves->low, day.time_zone) + " to " +
                             moment_text(m.leaves->high, day.time_zone);
        }
    }
    if (rows.empty()) return {};
    return "<h2>Fields</h2>\n" + table_html({"field", "left, ha", "ripe now, points", "wanted, points",
                                             "leaves that, 9 times in 10 between"},
                                            rows);
}

std::string plan_line_html(const Day& day, const DayResult& result) {
    const std::string line = keep_to_plan_line(day, result);
    return line.empty() ? line : "<h2>The plan</h2>\n<p>" + escaped(line) + "</p>\n";
}

// Closer than the report, so that six machines and their alarms go on one sheet.
constexpr const char* kCloser =
    "@media print { h1 { font-size: 17px; } h2 { font-size: 12px; margin: 7px 0 1px; } p { margin: 2px 0; } "
    "body { font-size: 10px; } th, td { padding: 1.5px 5px; } .by-hand { min-height: 32px; padding-top: 2px; "
    "} }";

constexpr const char* kByHand =
    "<h2>To be written by hand</h2>\n<p class=\"by-hand\">Trailers in the field, and where:</p>\n"
    "<p class=\"by-hand\">Faults, repairs, fuel:</p>\n"
    "<p class=\"by-hand\">Next field; obstacles, wet places:</p>\n"
    "<p class=\"by-hand\">Handed over by, taken over by, at:</p>\n";

}  // namespace

std::string handover_html(const Day& day, const DayResult& result) {
    const LocalTime last = local_time(result.last_us, day.time_zone);
    return "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" "
           "content=\"width=device-width, initial-scale=1\">\n<title>Handover: " +
           escaped(day.label) + "</title>\n<style>" + kStyle + kCloser +
           "</style></head>\n<body><main>\n<h1>Handover: " + escaped(day.label) +
           "</h1>\n<p class=\"quiet\">As the logs end, " + escaped(last.date) + ' ' + last.hh_mm() + " (" +
           escaped(day.time_zone) + "). Estimates, podrate " + kVersion + "</p>\n" + now_html(day, result) +
           plan_line_html(day, result) + standing_html(day, result) + last_loads_html(day, result) +
           totals_html(day, result) + fields_left_html(day, result) + kByHand + "</main></body></html>\n";
}

}  // namespace podrate::sim
