#include "report/html/maturity_html.hpp"

#include <algorithm>
#include <cmath>

#include "day/calendar.hpp"
#include "day/local_time.hpp"
#include "log/number.hpp"
#include "maturity/heat_units.hpp"
#include "maturity/yield_by_reading.hpp"
#include "report/html/markup.hpp"
#include "report/html/maturity_chart.hpp"
#include "report/html/moment.hpp"
#include "report/html/moving_on_html.hpp"

namespace podrate::sim {
namespace {

using TableRows = std::vector<std::vector<std::string>>;

constexpr double kMinuteS = 60.0;
constexpr double kTableEachS = 6.0 * 3600.0;
constexpr double kTableAheadS = 3.0 * 86400.0;

std::string with_range(const Believed& b, int decimals) {
    return fixed(b.middle, decimals) + " (" + fixed(b.low, decimals) + " to " + fixed(b.high, decimals) + ")";
}

std::string likely_text(const std::optional<Believed>& when, const Day& day) {
    if (!when) return {};
    if (std::isinf(when->middle))
        return when->middle < 0.0 ? "before the first reading" : "not within 14 days";
    return moment_text(when->middle, day.time_zone);
}

std::string span_text(const std::optional<Believed>& when, const Day& day) {
    if (!when || (std::isinf(when->low) && when->low == when->high)) return {};
    return moment_text(when->low, day.time_zone) + " to " + moment_text(when->high, day.time_zone);
}

std::string now_table(const Day& day, const DayResult& result) {
    TableRows rows;
    for (const FieldMaturity& m : result.maturity) {
        const MaturityReading& last = m.ripening.readings().back();
        rows.push_back(
            {m.field, std::to_string(m.ripening.readings().size()),
             fixed(last.tenderometer, 0) + ", " + moment_text(last.unix_s, day.time_zone, kMinuteS),
             with_range(m.now, 0),
             m.window ? fixed(m.window->low, 0) + " to " + fixed(m.window->high, 0) : "no target",
             m.window ? fixed(100.0 * m.in_window_now, 0) : std::string(),
             m.heat_units ? fixed(*m.heat_units, 0) : "not known"});
    }
    return table_html({"field", "readings", "newest", "at the day's end, points", "window",
                       "in the window, chance, %", "heat units since sowing, °C\u00A0d"},
                      rows);
}

std::string window_table(const Day& day, const DayResult& result) {
    TableRows rows;
    for (const FieldMaturity& m : result.maturity) {
        if (!m.window) continue;
        rows.push_back({m.field, likely_text(m.enters, day), span_text(m.enters, day),
                        likely_text(m.leaves, day), span_text(m.leaves, day)});
    }
    if (rows.empty()) return {};
    return table_html(
        {"field", "enters the window", "9 times in 10 between", "leaves it", "9 times in 10 between"}, rows);
}

std::string behind_the_charts(const Day& day, const DayResult& result) {
    TableRows rows;
    for (const FieldMaturity& m : result.maturity) {
        for (const MaturityReading& r : m.ripening.readings())
            rows.push_back({m.field,
                            moment_text(r.unix_s, day.time_zone, kMinuteS),
                            "reading",
                            fixed(r.tenderometer, 0),
                            {}});
        const double first_s = std::ceil(m.now_s / kTableEachS) * kTableEachS;
        for (double at_s = first_s; at_s <= m.now_s + kTableAheadS; at_s += kTableEachS) {
            rows.push_back({m.field, moment_text(at_s, day.time_zone), "forecast",
                            with_range(m.ripening.at(at_s), 0),
                            m.window ? fixed(100.0 * m.in_window(at_s), 0) : std::string()});
        }
    }
    return "<details><summary>the drawings as a table</summary>\n" +
           table_html({"field", "at", "", "points", "in the window, chance, %"}, rows, {2}) + "</details>\n";
}

// The last week and what is forecast.
std::string heat_by_day(const Day& day, const DayResult& result) {
    const std::optional<long> today = day_number(local_time(result.last_us, day.time_zone).date);
    TableRows rows;
    for (const WeatherDay& d : day.weather) {
        if (!today || d.day < *today - 7) continue;
        const MaturityKeys& keys = day.ripeness;
        rows.push_back(
            {date_of_day(d.day), d.day > *today ? "forecast" : "", fixed(d.min_c, 1), fixed(d.max_c, 1),
             fixed(heat_units(keys.heat_method, d.min_c, d.max_c, keys.heat_base_c, keys.heat_top_c), 1)});
    }
    if (rows.empty()) return {};
    return "<details><summary>heat units by the day</summary>\n" +
           table_html({"day", "", "least, °C", "greatest, °C", "heat units, °C\u00A0d"}, rows, {1}) +
           "</details>\n";
}

std::string how_forecast(const Day& day, const DayResult& result) {
    const MaturityKeys& keys = day.ripeness;
    const char* method =
        keys.heat_method == HeatMethod::mean  ? "of the mean of least and greatest temperature"
        : keys.heat_method == HeatMethod::cut ? "of both, each cut at base and top, then the mean"
                                              : "of a sine through both";
    std::string text;
    if (result.maturity.front().ripening.clock().by_heat()) {
        text =
            "Heat units: daily, above " + fixed(keys.heat_base_c, 1) + " °C (<code>heat_base_c</code>), " +
            method +
            " (<code>heat_method</code>); by <code>weather.csv</code>, past and forecast. A forecast day's "
            "mean is taken to be off by 1.5 °C.";
    } else {
        text =
            "There is no <code>weather.csv</code>, so ripening is told by days alone: wider, and blind to "
            "heat.";
    }
    return "<p class=\"quiet\">" + text + " A reading stands for its field to ± " +
           fixed(keys.reading_sd, 1) + " points (<code>reading_sd</code>); before any reading " +
           fixed(keys.ripening_pct_per_day, 1) +
           " % a day (<code>ripening_pct_per_day</code>) is taken for the rise, half to double that: common "
           "practice, no source.</p>\n";
}

// Contradicting readings, and those of other weeks.
std::string strange_readings_html(const Day& day, const DayResult& result) {
    std::size_t used = 0;
    std::string html;
    for (const FieldMaturity& m : result.maturity) {
        used += m.ripening.readings().size();
        if (m.ripening.reading_sd() == day.ripeness.reading_sd) continue;
        html += "<p>The readings of " + escaped(m.field) + " contradict one another: each is taken for ± " +
                fixed(m.ripening.reading_sd(), 1) + " points.</p>\n";
    }
    if (used == day.maturity.size()) return html;
    return html + "<p class=\"quiet\">Readings more than " + fixed(kReadingsBackS / 86400.0, 0) +
           " days before or " + fixed(kReadingsAheadS / 86400.0, 0) +
           " after the logs' end are left out: " + std::to_string(day.maturity.size() - used) + ".</p>\n";
}

std::string adjusted_html(const Day& day, const DayResult& result) {
    TableRows rows;
    for (const FieldFigures& f : result.fields) {
        const std::optional<AdjustedYield> adjusted = adjusted_yield_of(f.name, result.maturity);
        if (!adjusted) continue;
        rows.push_back({f.name, with_range(adjusted->reading, 0), fixed(f.yield_tpha(), 2),
                        with_range(adjusted->yield_tpha, 2)});
    }
    if (rows.empty()) return {};
    TableRows table;
    const YieldByReading yields(day.yield_table);
    for (const YieldPoint& p : yields.table())
        table.push_back({fixed(p.tenderometer, 0), fixed(p.relative_yield, 3)});
    const std::string common = fixed(day.ripeness.common_tenderometer, 0);
    return "<h2>Yield at a reading of " + common + "</h2>\n" +
           table_html({"field", "reading when cut", "yield, t/ha", "at a reading of " + common + ", t/ha"},
                      rows) +
           "<p class=\"quiet\">So that fields cut greener or riper can be compared. The range is the "
           "reading's "
           "alone; the table's own doubt is not in it. " +
           (day.yield_table.empty() ? "The table is common practice, no source; a "
                                      "<code>maturity_yield.csv</code> in the day's folder takes its place."
                                    : "The table is the day's <code>maturity_yield.csv</code>.") +
           "</p>\n<details><summary>the table of yield by reading</summary>\n" +
           table_html({"points", "relative yield"}, table) + "</details>\n";
}

}  // namespace

std::string maturity_html(const Day& day, const DayResult& result) {
    if (day.maturity.empty()) return {};
    if (result.maturity.empty()) return "<h2>Maturity</h2>\n" + strange_readings_html(day, result);
    std::string html = "<h2>Maturity</h2>\n" + now_table(day, result) + window_table(day, result);
    html += "<div class=\"multiples\">";
    for (const FieldMaturity& m : result.maturity) html += maturity_svg(m, day, result);
    html +=
        "</div>\n<p class=\"quiet\">Dots: readings; solid: so far; dashed: forecast; shade, and bars at the "
        "window's edges: 9 times in 10.</p>\n";
    return html + behind_the_charts(day, result) + heat_by_day(day, result) + how_forecast(day, result) +
           strange_readings_html(day, result) + adjusted_html(day, result) + moving_on_html(day, result);
}

}  // namespace podrate::sim
