#include "report/html/plan_html.hpp"

#include "log/number.hpp"
#include "plan/trailer_waits.hpp"
#include "report/html/clock_cell.hpp"
#include "report/html/markup.hpp"
#include "report/html/plan_chart.hpp"
#include "report/plan_words.hpp"

namespace podrate::sim {
namespace {

std::string case_words(const PlanCase& c, const Forecast& f) {
    switch (c.kind) {
        case PlanCase::Kind::all: return "all machines";
        case PlanCase::Kind::without: return "without " + c.machine;
        case PlanCase::Kind::repair: break;
    }
    return c.machine + " under repair for " + duration_text(60.0 * f.repair_min);
}

std::string cases_html(const Forecast& f, const std::string& end) {
    std::vector<std::vector<std::string>> rows;
    for (const PlanCase& c : f.cases) {
        const Quantiles& q = c.delivered_t.back();
        const bool faster = c.need.verdict == SpeedNeed::Verdict::faster;
        rows.push_back({case_words(c, f), fixed(q.median, 0), fixed(q.low90, 0) + " to " + fixed(q.high90, 0),
                        chance_words(c.chance), speed_words(c.need),
                        faster ? fixed(c.need.more_lost_points, 1) + " (" + fixed(c.need.more_lost_low, 1) +
                                     " to " + fixed(c.need.more_lost_high, 1) + ")"
                               : std::string(),
                        faster ? fixed(c.need.more_lost_t, 1) : std::string()});
    }
    return table_html({"from now on", "delivered by " + end + ", t", "9 times in 10, t", "chance of the plan",
                       "speed for an even chance", "loss more, points", "on the ground, t more"},
                      rows, {4});
}

std::string back_html(const Forecast& f, const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    for (const MachineBack& b : f.back) {
        rows.push_back({b.machine, b.stopped_now ? "stands" : "should it stop now",
                        back_words(b.even, day, result), back_words(b.nine_in_ten, day, result)});
    }
    return table_html({"machine", "", "back at work for an even chance", "for nine chances in ten"}, rows,
                      {1, 2, 3});
}

std::string how_html(const Forecast& f) {
    return "<p class=\"quiet\">How: " + std::to_string(f.paths) + " simulated rests of the day (seed " +
           fixed(f.seed, 0) +
           ") of work, tips, waits, stops and moves as the day showed them so far and as they were thought "
           "to be "
           "beforehand ([forecast] in day.toml; common practice, no source); the less the day has shown, the "
           "wider. It "
           "does not know what people know: the size of the next field, rain, a night off. Waits for "
           "trailers are taken "
           "as they were, with fewer machines too. Speed: all machines that work harvest so much faster, "
           "none beyond "
           "its drum's rated feed or its fastest speed, losing more as its loss curve says, doubt in "
           "brackets; nothing "
           "here asks anybody to drive faster than is safe.</p>\n";
}

}  // namespace

std::string plan_html(const Day& day, const DayResult& result) {
    if (day.intake_plan.empty()) return {};
    std::string html = "<h2>Against the plan</h2>\n" + plan_chart_html(day, result);
    for (const std::string& sentence : plan_sentences(day, result))
        html += "<p>" + escaped(sentence) + "</p>\n";
    if (result.forecast) {
        const Forecast& f = *result.forecast;
        html += "<div class=\"pace\">" + cases_html(f, clock_cell(f.end_us, day, result)) +
                "</div><div class=\"pace\">" + back_html(f, day, result) + "</div>\n" + how_html(f);
    }
    return html + plan_table_html(day, result);
}

std::string trailer_waits_html(const Day& day, const DayResult& result) {
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> headings = {"hour from"};
    std::size_t tips = 0;
    for (const TrailerWaits& w : trailer_waits(result)) {
        const double mean_s = w.tips > 0 ? w.waited_s / static_cast<double>(w.tips) : 0.0;
        rows.push_back({w.machine, std::to_string(w.tips), w.cycle_s > 0.0 ? duration_text(w.cycle_s) : "",
                        duration_text(w.waited_s), duration_text(mean_s), duration_text(w.longest_s),
                        fixed(w.forgone_kg / 1e3, 2)});
        headings.push_back(w.machine);
        tips += w.tips;
    }
    if (tips == 0) return {};
    std::vector<std::vector<std::string>> hours;
    for (const HourWaits& hour : waits_by_hour(result)) {
        std::vector<std::string> row = {clock_cell(hour.start_us, day, result)};
        for (const double seconds : hour.waited_s) row.push_back(duration_text(seconds));
        hours.push_back(std::move(row));
    }
    return "<h2>Waits for a trailer</h2>\n<div class=\"pace\">" +
           table_html(
               {"machine", "tips", "from tip to tip, mean", "waited", "a tip, mean", "longest", "forgone, t"},
               rows) +
           "</div><details><summary>By the hour in which they began</summary>\n" +
           table_html(headings, hours) +
           "</details>\n<p class=\"quiet\">From standing to tip until peas pour, raising the hopper with it. "
           "Forgone: "
           "that time at the machine's own rate of harvest in the hour about. The log shows no trailer, so a "
           "driver's "
           "talk counts as a wait too.</p>\n";
}

}  // namespace podrate::sim
