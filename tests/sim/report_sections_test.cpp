// The report's sections on loss, alarms and pauses, from results made by hand.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/html/alarms_html.hpp"
#include "report/html/html_report.hpp"
#include "report/html/long_table.hpp"
#include "report/html/loss_html.hpp"
#include "report/html/pauses_html.hpp"
#include "report/summary_json.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr TimeUs kStartUs = 1751032800 * kSecondUs;  // 14:00 UTC

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

MachineResult machine(const std::string& id) {
    MachineResult m;
    m.id = id;
    m.usable = true;
    m.last.harvested_kg = Real(10000);
    m.last.area_m2 = Real(20000);
    m.last.tray_checks = 6;
    m.lost.collected_kg = Real(10000);
    m.lost.lost_kg = Real(753);
    m.lost.shares.total = {Real(0.07), Real(0.05), Real(0.1)};
    m.lost.shares.drum = {Real(0.03), Real(0.01), Real(0.06)};
    m.lost.shares.picking = {Real(0.04), Real(0.02), Real(0.1)};
    m.seconds_by_state[static_cast<std::size_t>(WorkState::harvesting)] = 6000.0;
    return m;
}

DayResult day_of(std::vector<MachineResult> machines) {
    DayResult result;
    result.machines = std::move(machines);
    result.first_us = kStartUs;
    result.last_us = kStartUs + 7200 * kSecondUs;
    return result;
}

Pause pause_at(int after_s) {
    Pause pause;
    pause.start_us = kStartUs + after_s * kSecondUs;
    pause.end_us = pause.start_us + 90 * kSecondUs;
    pause.heap_kg = Real(22);
    pause.surge_kg = Real(14);
    pause.surge_known = true;
    pause.place_known = true;
    pause.lat_e7 = 526024464;
    pause.lon_e7 = -29029116;
    return pause;
}

}  // namespace

TEST_CASE("The loss is told with its ranges: drum and reel apart, on the ground and in tonnes") {
    const std::string html = loss_html(day_of({machine("alder")}));
    CHECK(has(html,
              "<td>alder</td><td>7.0 (5.0 to 10.0)</td><td>3.0 (1.0 to 6.0)</td><td>4.0 (2.0 to 10.0)</td>"));
    CHECK(has(html, "<td>376 (263 to 556)</td><td>0.75 (0.53 to 1.11)</td>"));
    CHECK(has(html, "<b>alder</b>: Six tray checks: "));
}

TEST_CASE("Loss where nothing is known of the area stands as unknown") {
    MachineResult m = machine("alder");
    m.lost = {};
    CHECK(count_of(loss_html(day_of({m})), "<td>unknown</td>") == 5);
    m.usable = false;
    CHECK(loss_html(day_of({m})).empty());
}

TEST_CASE("A table of up to 12 rows stands whole and a longer one folds the rest away with its number") {
    std::vector<std::vector<std::string>> rows(12, {"x", "y"});
    CHECK_FALSE(has(long_table_html({"a", "b"}, rows, {}), "<details>"));
    rows.resize(40, {"x", "y"});
    const std::string html = long_table_html({"a", "b"}, rows, {1});
    CHECK(has(html, "<details><summary>and 28 more</summary>"));
    CHECK(count_of(html.substr(0, html.find("<details>")), "<td>x</td>") == 12);
    CHECK(count_of(html, "<td>x</td>") == 40);
    CHECK(count_of(html, "<td class=\"words\">y</td>") == 40);
}

TEST_CASE("Alarms are counted by kind and machine and listed by their time") {
    MachineResult alder = machine("alder");
    MachineResult birch = machine("birch");
    alder.alarms.push_back({AlarmId::loss_high, kStartUs + 600 * kSecondUs, kStartUs + 645 * kSecondUs});
    birch.alarms.push_back({AlarmId::hopper_full, kStartUs + 300 * kSecondUs, kStartUs + 420 * kSecondUs});
    const std::string html = alarms_html(Day{}, day_of({alder, birch}));
    CHECK(has(html, "<td>loss above its limit</td><td>1</td><td>0</td><td>45 s</td><td>no</td>"));
    CHECK(has(html, "<td>hopper full</td><td>0</td><td>1</td><td>2 min</td><td>no</td>"));
    CHECK(has(html, "<td>all, each 10 min of work</td><td>0.1</td><td>0.1</td>"));
    CHECK_FALSE(has(html, "load rate below"));
    const std::size_t first = html.find("<td>14:05</td>");
    const std::size_t second = html.find("<td>14:10</td>");
    REQUIRE(first != std::string::npos);
    REQUIRE(second != std::string::npos);
    CHECK(first < second);
}

TEST_CASE("A day without alarms or pauses says it briefly or not at all") {
    const DayResult result = day_of({machine("alder")});
    CHECK(alarms_html(Day{}, result) == "<h2>Alarms</h2>\n<p>None came.</p>\n");
    CHECK(pauses_html(Day{}, result).empty());
}

TEST_CASE("A pause is told with time and length and place and heap and surge") {
    MachineResult m = machine("alder");
    m.pauses.push_back(pause_at(600));
    Pause blind = pause_at(1200);
    blind.place_known = false;
    blind.surge_known = false;
    m.pauses.push_back(blind);
    const std::string html = pauses_html(Day{}, day_of({m}));
    CHECK(has(html,
              "<td>14:10</td><td class=\"words\">alder</td><td>2 min</td><td>52.60245, -2.90291</td>"
              "<td>22</td><td>+14</td>"));
    CHECK(has(html, "<td>not known</td><td>22</td><td>not known</td>"));
}

TEST_CASE("A page with many alarms and pauses closes what it opens") {
    MachineResult m = machine("alder & <son>");
    for (int i = 0; i < 100; ++i) {
        m.alarms.push_back(
            {AlarmId::loss_high, kStartUs + i * 20 * kSecondUs, kStartUs + (i * 20 + 5) * kSecondUs});
        m.pauses.push_back(pause_at(i * 60));
    }
    Day day;
    day.label = "Many";
    const std::string html = html_report(day, day_of({m}));
    CHECK(count_of(html, "<summary>and 88 more</summary>") == 2);
    CHECK_FALSE(has(html, "<son>"));
    for (const char* tag :
         {"details", "summary", "table", "thead", "tbody", "tr", "th", "td", "div", "p", "b"}) {
        INFO(tag);
        const std::string open = std::string("<") + tag;
        CHECK(count_of(html, open + ">") + count_of(html, open + " ") ==
              count_of(html, std::string("</") + tag + ">"));
    }
}

TEST_CASE("The summary tells loss, alarms by kind and pauses for other programs") {
    MachineResult m = machine("alder");
    m.alarms.resize(3);
    m.alarms[2].alarm = AlarmId::hopper_full;
    m.pauses.push_back(pause_at(600));
    Pause blind = pause_at(1200);
    blind.place_known = false;
    blind.surge_known = false;
    m.pauses.push_back(blind);
    const auto json = nlohmann::json::parse(summary_json(Day{}, day_of({m})))["machines"][0];
    CHECK(json["alarms"] == 3);
    CHECK(json["alarms_by_kind"] == nlohmann::json({{"loss_high", 2}, {"hopper_full", 1}}));
    CHECK(json["lost_t"].get<double>() == Approx(0.753));
    CHECK(json["loss_pct_mean"].get<double>() == Approx(7.0));
    CHECK(json["drum_loss_pct_mean"].get<double>() == Approx(3.0));
    CHECK(json["drum_loss_pct_low"].get<double>() == Approx(1.0));
    CHECK(json["picking_loss_pct_high"].get<double>() == Approx(10.0));
    CHECK(json["tray_checks"] == 6);
    CHECK(json["loss_sensor"] == false);
    REQUIRE(json["pauses"].size() == 2);
    CHECK(json["pauses"][0]["start_unix_s"] == 1751033400.0);
    CHECK(json["pauses"][0]["end_unix_s"] == 1751033490.0);
    CHECK(json["pauses"][0]["lat_deg"].get<double>() == Approx(52.6024464));
    CHECK(json["pauses"][0]["heap_kg"] == 22.0);
    CHECK(json["pauses"][0]["surge_kg"] == 14.0);
    CHECK(json["pauses"][1]["lon_deg"].is_null());
    CHECK(json["pauses"][1]["surge_kg"].is_null());
    m.lost = {};
    CHECK(nlohmann::json::parse(summary_json(Day{}, day_of({m})))["machines"][0]["lost_t"].is_null());
}
