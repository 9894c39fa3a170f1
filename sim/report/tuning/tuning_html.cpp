#include "report/tuning/tuning_html.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "plan/normal_quantile.hpp"
#include "podrate/version.hpp"
#include "report/alarm_summary.hpp"
#include "report/html/contents.hpp"
#include "report/html/markup.hpp"
#include "report/html/style.hpp"
#include "report/tuning/operating_chart.hpp"
#include "report/tuning/published_tables.hpp"
#include "report/tuning/tuning_reasons.hpp"
#include "report/tuning/tuning_tables.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kTuningContents = "<!-- contents -->";

std::string paragraph(const std::string& text, const char* look = "") {
    return (*look != '\0' ? std::string("<p class=\"") + look + "\">" : "<p>") + escaped(text) + "</p>\n";
}

std::string folded(const char* summary, const std::string& html) {
    return std::string("<details><summary>") + summary + "</summary>\n" + html + "</details>\n";
}

std::string summary_html(const TuneTable& table, const TuningChoice& choice) {
    std::string html = paragraph(summary_text(table, choice), "summary");
    for (const AlarmConclusion& alarm : choice.alarms) html += paragraph(brings_text(choice, alarm));
    for (const std::string& sentence : how_sure(table, choice)) html += paragraph(sentence);
    for (const std::string& sentence : warnings(table, choice))
        html += "<p class=\"bad\"><b>Mind:</b> " + escaped(sentence) + "</p>\n";
    return html;
}

std::string area_text(const AlarmConclusion& alarm, double z) {
    if (std::isnan(alarm.area.area)) return {};
    const auto range = [](double low, double high) { return fixed(low, 2) + " to " + fixed(high, 2); };
    const double reach = z * alarm.area.sd;
    std::string text =
        "How well what is to be told and what is not are told apart, 0.5 as by chance and 1 at best: " +
        fixed(alarm.area.area, 2) +
        ", the area under the stepped line over the most false alarms that any setting has (" +
        range(std::max(0.0, alarm.area.area - reach), std::min(1.0, alarm.area.area + reach)) +
        " by DeLong, as if all were independent";
    if (alarm.area_range.known())
        text += ", " + range(alarm.area_range.low, alarm.area_range.high) + " by machine's days drawn anew";
    return text + "). It takes the best of all settings at each place, which flatters.";
}

std::string alarm_html(const TuneTable& table, const TuningChoice& choice, const AlarmConclusion& alarm) {
    const double z = normal_quantile(0.5 + 0.5 * choice.options.level);
    std::string html = "<h2>" + escaped(words_for(static_cast<AlarmId>(alarm.alarm))) + "</h2>\n";
    html += "<div class=\"multiples\">\n" + detection_chart_svg(alarm, choice) +
            delay_chart_svg(alarm, choice) + "</div>\n" + operating_legend_html(choice);
    const std::string area = area_text(alarm, z);
    if (!area.empty()) html += paragraph(area, "quiet");
    html += folded("each setting with its figures", settings_table_html(table, choice, alarm));
    return html + "<h3>What each parameter moves</h3>\n" +
           effects_table_html(table, alarm, choice.chosen.setting);
}

std::string check_html(const TuneTable& table, const TuningChoice& choice, const CrossCheck& check) {
    const bool days = check.left_out == LeftOut::day;
    std::string html = std::string("<h3>") + (days ? "A day left out" : "A machine left out") + "</h3>\n";
    if (check.folds.empty())
        return html + paragraph(days ? "There is but one day." : "There is but one machine.");
    return html + gains_table_html(choice, check) +
           folded(days ? "day by day" : "machine by machine", folds_table_html(table, choice, check));
}

std::string checks_html(const TuneTable& table, const TuningChoice& choice) {
    return "<h2>Does it hold elsewhere?</h2>\n" +
           paragraph(
               "Chosen anew without each day, and without each machine, and shown on the one left out, "
               "against "
               "the setting as it was. A gain carries over where its range lies above zero; the range is "
               "widened because folds share most of their days (Nadeau and Bengio 2003). Of gains by luck "
               "alone (20 settings alike, made up) about one in twenty passed; judged on the days that it "
               "was chosen on, "
               "one in three.",
               "quiet") +
           check_html(table, choice, choice.by_day) + check_html(table, choice, choice.by_machine);
}

constexpr const char* kBurdenNote =
    "Targets of EEMUA 191, ISA-18.2 and IEC 62682, from memory. They are for one operator of a control room; "
    "a cab is "
    "none, and its driver has other work.";

constexpr const char* kStartNote =
    "Deadbands and delays by kind of signal that ISA-18.2 gives to start from, from memory: flow 5 %, level "
    "5 %, "
    "pressure 2 %, temperature 1 % of the range; on and off 15 s, 60 s, 15 s, 60 s. Which kind is nearest is "
    "our "
    "judgement; of a share the range is taken as 0 to 1, of a leak as the hopper's capacity.";

constexpr const char* kMeaning = R"(<h2>What the figures mean</h2>
<p><b>Told</b>: an alarm came, or stood already, for what was to be told. <b>False alarm</b>: one that nothing to be told explains. <b>Hours</b> of an alarm: the time in which it could have come.
<b>Chattered</b>: came at least the third time within a minute.</p>
<p><b>Ranges</b>: a bootstrap that draws machine's days as a whole, widened for few of them (Hesterberg 2015). The share told reaches at least as far as Wilson's range (1927), and that of false alarms at least as high as the exact bound of a count (Garwood 1936).</p>
)";

}  // namespace

std::string tuning_html(const TuneTable& table, const TuningChoice& choice) {
    std::string html = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
    html +=
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<title>Alarm limits</title>\n<style>";
    html += std::string(kStyle) + kOperatingStyle + "</style></head>\n<body><main>\n<h1>Alarm limits</h1>\n";
    html += summary_html(table, choice) + kTuningContents;
    html += "<h2>Why this setting</h2>\n";
    for (const std::string& reason : reasons(table, choice)) html += paragraph(reason);
    for (const AlarmConclusion& alarm : choice.alarms) html += alarm_html(table, choice, alarm);
    if (!choice.alarms.empty()) html += checks_html(table, choice);
    html += "<h2>What the driver is shown in all</h2>\n" + burden_table_html(choice) +
            paragraph(kBurdenNote, "quiet");
    html += "<h2>Beside published points to start from</h2>\n" + starting_points_html(table, choice) +
            paragraph(kStartNote, "quiet");
    const std::string still = still_table_html(choice);
    if (!still.empty()) html += "<h2>Alarms that the sweep does not move</h2>\n" + still;
    html += kMeaning;
    html += std::string("<p class=\"quiet\">podrate ") + kVersion + "</p>\n</main></body></html>\n";
    return with_contents(html, kTuningContents);
}

}  // namespace podrate::sim
