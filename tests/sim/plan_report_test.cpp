// The gang against the plan in the report's section, sentences and files.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/forecast_csv.hpp"
#include "report/html/handover_html.hpp"
#include "report/html/plan_html.hpp"
#include "report/plan_json.hpp"
#include "report/plan_words.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr TimeUs kMinUs = 60 * kSecondUs;
constexpr TimeUs kNoonUs = 1751025600 * kSecondUs;  // 13:00 in London

bool tells(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

Forecast told_forecast() {
    Forecast f;
    f.now_us = kNoonUs;
    f.end_us = kNoonUs + 120 * kMinUs;
    f.grid = {3600.0, 2};
    f.delivered_t = 5.0;
    f.in_hoppers_t = 1.0;
    f.planned_now_t = 6.0;
    f.planned_end_t = 18.0;
    f.pace_tph = 5.0;
    f.needed_tph = 6.5;
    f.seed = 1;
    f.paths = 1000;
    f.repair_min = 60;
    PlanCase all;
    all.delivered_t = {{5, 5, 5, 5, 5}, {9, 10, 11, 12, 13}, {13, 15, 16.6, 18, 20}};
    all.chance = 0.25;
    all.need = {SpeedNeed::Verdict::faster, 1.08, 1.2, 0.4, 0.2, 0.9, 0.11};
    PlanCase without = all;
    without.kind = PlanCase::Kind::without;
    without.machine = "al<der";
    without.chance = 0.0;
    without.need = {};
    PlanCase repair = all;
    repair.kind = PlanCase::Kind::repair;
    repair.machine = "al<der";
    repair.need = {SpeedNeed::Verdict::slower_will_do, 0.7, 1.2, -0.4, -0.9, -0.2, -0.1};
    f.cases = {all, without, repair};
    f.back = {
        {"al<der", true, {BackBy::Verdict::by, kNoonUs + 45 * kMinUs}, {BackBy::Verdict::too_late, kNoonUs}},
        {"birch",
         false,
         {BackBy::Verdict::not_needed, f.end_us},
         {BackBy::Verdict::by, kNoonUs + 30 * kMinUs}}};
    return f;
}

DayResult told_result(bool with_forecast) {
    DayResult result;
    MachineResult m;
    m.id = "al<der";
    m.usable = true;
    m.first_us = kNoonUs - 60 * kMinUs;
    m.last_us = kNoonUs;
    for (int i = 0; i < 60; ++i) {
        Minute minute;
        minute.minute = m.first_us / kMinUs + i;
        minute.harvested_kg = 100.0 * (i + 1);
        minute.mass_kg = i < 50 ? minute.harvested_kg : minute.harvested_kg - 5000.0;
        m.minutes.push_back(minute);
    }
    result.machines = {m};
    result.first_us = m.first_us;
    result.last_us = m.last_us;
    if (with_forecast) result.forecast = told_forecast();
    return result;
}

Day told_day() {
    Day day;
    day.time_zone = "Europe/London";
    const double noon_s = static_cast<double>(kNoonUs / kSecondUs);
    day.intake_plan = {{noon_s - 3600.0, 0.0}, {noon_s + 7200.0, 18.0}};
    return day;
}

}  // namespace

TEST_CASE("The plan is told in sentences with pace, forecast, speed, loss and the time to be back") {
    const std::vector<std::string> s = plan_sentences(told_day(), told_result(true));
    REQUIRE(s.size() == 5);
    CHECK(tells(s[0], "By 13:00, 5.0 t had been delivered"));
    CHECK(tells(s[0], "1.0 t were in the hoppers; the plan says 6.0 t: 1.0 t behind."));
    CHECK(tells(s[1], "5.0 t/h came into the hoppers; the plan needs 6.5 t/h from now to 15:00"));
    CHECK(tells(
        s[2],
        "17 t by 15:00, 9 times in 10 between 13 and 20 t; the plan's 18 t are met with a chance of 25 %"));
    CHECK(tells(s[3], "8 % faster than they did"));
    CHECK(tells(s[3], "0.4 points of loss more (0.2 to 0.9), 0.1 t on the ground"));
    CHECK(tells(s[3], "people decide"));
    CHECK(tells(
        s[4],
        "al<der stands. Back at work for an even chance of the plan: by 13:45; for nine chances in ten: "
        "out of reach even at once."));
    CHECK(plan_sentences(told_day(), told_result(false)).size() == 1);
    CHECK(plan_sentences(Day{}, told_result(true)).empty());
}

TEST_CASE("No chance is told as certain and no speed without its direction") {
    CHECK(chance_words(0.0) == "below 1 %");
    CHECK(chance_words(1.0) == "above 99 %");
    CHECK(chance_words(0.336) == "34 %");
    CHECK(speed_words({SpeedNeed::Verdict::faster, 1.08}) == "8 % faster");
    CHECK(speed_words({SpeedNeed::Verdict::slower_will_do, 0.93}) == "7 % slower");
    CHECK(speed_words({SpeedNeed::Verdict::slower_will_do, 0.7}) == "30 % slower or more");
    CHECK(speed_words({SpeedNeed::Verdict::slower_will_do, 0.998}) == "as now");
    CHECK(speed_words({}) == "out of reach: at their limit now");
    CHECK(speed_words({SpeedNeed::Verdict::out_of_reach, 1.0, 1.12}) == "out of reach: limit 12 % faster");
}

TEST_CASE(
    "The report's section has chart, cases, times to be back and a table, and none of it without a plan") {
    const std::string html = plan_html(told_day(), told_result(true));
    CHECK(tells(html, "<h2>Against the plan</h2>"));
    for (const char* part :
         {"class=\"fan-90\"", "class=\"fan-50\"", "class=\"fan-median\"", "class=\"plan-line\"",
          "class=\"sum-line\"", "class=\"hopper-band\"", ">now</text>"})
        CHECK(tells(html, part));
    CHECK(tells(html,
                "<td>without al&lt;der</td><td>17</td><td>13 to 20</td><td>below 1 %</td>"
                "<td class=\"words\">out of reach: at their limit now</td><td></td><td></td>"));
    CHECK(tells(html, "al&lt;der under repair for 1 h 00 min"));
    CHECK(tells(html,
                "<td>birch</td><td class=\"words\">should it stop now</td><td class=\"words\">not needed</td>"
                "<td class=\"words\">by 13:30</td>"));
    CHECK(tells(
        html, "<td>14:00</td><td>12.0</td><td>11.0</td><td></td><td>10.0 to 12.0</td><td>9.0 to 13.0</td>"));
    CHECK(tells(html, "<td>13:00</td><td>6.0</td><td>5.0</td><td>1.0</td>"));
    CHECK_FALSE(tells(html, "al<der"));
    const std::string past = plan_html(told_day(), told_result(false));
    CHECK(tells(past, "class=\"sum-line\""));
    CHECK_FALSE(tells(past, "fan-90"));
    CHECK(plan_html(Day{}, told_result(true)).empty());
}

TEST_CASE("Who takes over is told how to keep to the plan in one line") {
    const DayResult result = told_result(true);
    const std::string html = handover_html(told_day(), result);
    CHECK(tells(
        html,
        "To keep to the plan: 6.5 t/h to 15:00; last hour 5.0 t/h. Expected 17 t (13 to 20) of 18 t, chance "
        "25 %; speed for an even chance: 8 % faster. al&lt;der back: by 13:45."));
    CHECK_FALSE(tells(handover_html(told_day(), told_result(false)), "keep to the plan"));
}

TEST_CASE("The forecast's table is tidy and the summary tells the same") {
    const DayResult result = told_result(true);
    const std::string csv = forecast_csv(result);
    CHECK(csv.rfind("unix_s,case,quantile,delivered_t\n1751025600,all,0.05,5.000\n", 0) == 0);
    CHECK(tells(csv, "\n1751032800,without al<der,0.50,16.600\n"));
    CHECK(tells(csv, "\n1751029200,repair al<der,0.95,13.000\n"));
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 1 + 3 * 3 * 5);
    CHECK(forecast_csv(told_result(false)) == "unix_s,case,quantile,delivered_t\n");
    const nlohmann::ordered_json plan = plan_json(told_day(), result);
    CHECK(plan["delivered_t"] == 5.0);
    CHECK(plan["in_hoppers_t"] == 1.0);
    CHECK(plan["planned_t"] == 6.0);
    const nlohmann::ordered_json& f = plan["forecast"];
    CHECK(f["cases"][0]["delivered_t_median"] == 16.6);
    CHECK(f["cases"][0]["speed_factor"] == 1.08);
    CHECK(f["cases"][1]["speed"] == "out_of_reach");
    CHECK(f["cases"][1]["speed_factor"].is_null());
    CHECK(f["back"][0]["even_chance"]["unix_s"] == 1751025600 + 45 * 60);
    CHECK(f["back"][0]["nine_in_ten"]["verdict"] == "too_late");
    CHECK(plan_json(told_day(), told_result(false))["forecast"].is_null());
    CHECK(plan_json(Day{}, result).is_null());
}
