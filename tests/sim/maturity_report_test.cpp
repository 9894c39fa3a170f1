// What the report, the tables and the summary say of ripeness, from days made by hand.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "day/calendar.hpp"
#include "maturity/moving_on.hpp"
#include "report/fields_csv.hpp"
#include "report/html/contents.hpp"
#include "report/html/handover_html.hpp"
#include "report/html/maturity_html.hpp"
#include "report/html/moment.hpp"
#include "report/maturity_csv.hpp"
#include "report/summary_json.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr double kNow = 1751032800.0;  // 27 June 2025, 14:00 UTC
constexpr double kDay = 86400.0;

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

Field field(const std::string& name, double target) {
    Field f;
    f.name = name;
    if (target > 0.0) f.target_tenderometer = target;
    return f;
}

FieldFigures figures(const std::string& name, double harvested_kg, double covered_ha, double left_ha,
                     double cut_before_s) {
    FieldFigures f;
    f.name = name;
    f.bounded = true;
    f.field_m2 = 1e4 * (covered_ha + left_ha);
    f.covered_m2 = 1e4 * covered_ha;
    f.left_m2 = 1e4 * left_ha;
    f.harvested_kg = harvested_kg;
    if (harvested_kg <= 0.0) return f;
    f.machines = 2;
    f.in_field_h = 4.0;
    f.mean_cut_unix_s = kNow - cut_before_s - 1800.0;
    f.last_cut_us = static_cast<TimeUs>(kNow - cut_before_s) * kSecondUs;
    return f;
}

// Long Acre at 96 and rising, cut last; Far Piece at 112, not cut yet.
struct Made {
    Day day;
    DayResult result;
    Made() {
        day.fields = {field("Long Acre", 105), field("Far Piece", 105)};
        day.maturity = {{kNow - 2.1 * kDay, "Long Acre", 88}, {kNow - 2.1 * kDay, "Far Piece", 102},
                        {kNow - 1.1 * kDay, "Long Acre", 92}, {kNow - 1.1 * kDay, "Far Piece", 107},
                        {kNow - 0.1 * kDay, "Long Acre", 96}, {kNow - 0.1 * kDay, "Far Piece", 112}};
        result.fields = {figures("Long Acre", 20000, 4, 6, 0), figures("Far Piece", 0, 0, 8, 0)};
        result.first_us = static_cast<TimeUs>(kNow - 7200.0) * kSecondUs;
        result.last_us = static_cast<TimeUs>(kNow) * kSecondUs;
        ripen();
    }
    void ripen() { result.maturity = field_maturity(day, result.fields, result.last_us); }
};

}  // namespace

TEST_CASE("Each field's window is its target's, and chances and times go together") {
    const Made made;
    REQUIRE(made.result.maturity.size() == 2);
    const FieldMaturity& green = made.result.maturity[0];
    const FieldMaturity& ripe = made.result.maturity[1];
    CHECK(green.field == "Long Acre");
    CHECK(green.window->low == 100.0);
    CHECK(green.window->high == 115.0);
    CHECK(green.now.middle == Approx(96.0).margin(1.5));
    CHECK(green.in_window_now < 0.1);
    CHECK(ripe.in_window_now > 0.9);
    CHECK(green.enters->middle > kNow);
    CHECK(ripe.enters->middle < kNow);
    CHECK(ripe.leaves->middle < green.leaves->middle);
    // Half of what is believed lies on either side of the likely time.
    CHECK(green.ripening.chance_above(green.enters->middle, 100.0) == Approx(0.5).margin(0.001));
    CHECK(green.ripening.chance_above(green.leaves->high, 115.0) == Approx(0.95).margin(0.001));
}

TEST_CASE("A field cut green yields more at the common reading, by the table") {
    Made made;
    made.day.yield_table = {{80, 0.8}, {100, 1.0}, {120, 1.2}};
    made.ripen();
    const AdjustedYield adjusted = *adjusted_yield_of("Long Acre", made.result.maturity);
    CHECK(adjusted.yield_tpha.middle == Approx(5.0 * 100.0 / adjusted.reading.middle));
    CHECK(adjusted.yield_tpha.low == Approx(5.0 * 100.0 / adjusted.reading.high));
    CHECK(adjusted.yield_tpha.high == Approx(5.0 * 100.0 / adjusted.reading.low));
    CHECK_FALSE(adjusted_yield_of("Far Piece", made.result.maturity).has_value());
    CHECK_FALSE(adjusted_yield_of("No Such", made.result.maturity).has_value());
    made.day.ripeness.common_tenderometer = 120;
    made.ripen();
    CHECK(adjusted_yield_of("Long Acre", made.result.maturity)->yield_tpha.middle ==
          Approx(1.2 * adjusted.yield_tpha.middle));
}

TEST_CASE("Moving on is reckoned in hours and tonnes as by hand") {
    Made made;
    const std::optional<MovingOn> all = moving_on(made.day, made.result.fields, made.result.maturity);
    REQUIRE(all.has_value());
    // 20 t in 4 machine hours by two machines: 10 t/h; 4 ha likewise: 2 ha/h.
    CHECK(all->pace_tph == Approx(10.0));
    REQUIRE(all->fields.size() == 2);
    CHECK(all->fields[0].work_h == Approx(3.0));
    CHECK(all->fields[1].work_h == Approx(4.0));
    CHECK(all->fields[0].own_yield);
    CHECK_FALSE(all->fields[1].own_yield);
    CHECK(all->fields[1].common_tpha == Approx(all->fields[0].common_tpha));
    CHECK(all->fields[0].by_a_day.mean > 0.0);
    REQUIRE(all->choices.size() == 1);
    const MoveChoice& c = all->choices[0];
    CHECK(all->fields[c.here].maturity->field == "Long Acre");
    CHECK(all->fields[c.there].maturity->field == "Far Piece");
    CHECK(c.move_cost_t == Approx(5.0));  // half an hour
    // Here later by the work there and two moves, there earlier by the work here.
    CHECK(c.later_h == Approx(5.0));
    CHECK(c.earlier_h == Approx(3.0));
    CHECK(c.here_t.mean > 0.0);
    CHECK(c.there_t.mean < 0.0);
    CHECK(c.here_if_moved.in > c.here_if_stayed.in);
    CHECK(c.there_if_moved.past < c.there_if_stayed.past);
}

TEST_CASE("A change of peas is the table's between the readings then and now") {
    Made made;
    made.day.yield_table = {{50, 0.5}, {150, 1.5}};  // 1 % of the yield at 100 a point
    made.ripen();
    const std::optional<MovingOn> all = moving_on(made.day, made.result.fields, made.result.maturity);
    REQUIRE(all.has_value());
    const FieldLeft& here = all->fields[0];
    const double rise = here.in_a_day.middle - made.result.maturity[0].now.middle;
    CHECK(here.by_a_day.mean == Approx(here.common_tpha * 6.0 * rise / 100.0).epsilon(0.1));
    CHECK(here.by_a_day.reach90 > 0.2 * here.by_a_day.mean);
    CHECK(here.by_a_day.reach90 < 1.5 * here.by_a_day.mean);
}

TEST_CASE("Where nothing is left or nothing was cut there is no choice to tell") {
    Made made;
    made.result.fields = {figures("Long Acre", 20000, 4, 0, 0), figures("Far Piece", 0, 0, 0, 0)};
    made.ripen();
    CHECK_FALSE(moving_on(made.day, made.result.fields, made.result.maturity).has_value());
    made.result.fields = {figures("Long Acre", 0, 0, 6, 0), figures("Far Piece", 0, 0, 8, 0)};
    made.ripen();
    CHECK_FALSE(moving_on(made.day, made.result.fields, made.result.maturity).has_value());
    made.result.fields.clear();
    made.ripen();
    CHECK_FALSE(moving_on(made.day, made.result.fields, made.result.maturity).has_value());
}

TEST_CASE("The report shows maturity and leaves the decision with people") {
    Made made;
    const std::string html = maturity_html(made.day, made.result);
    for (const char* part : {"<h2>Maturity</h2>", "window 100 to 115", "common practice, no source",
                             "class=\"window-band\"", "class=\"belief-ahead\"",
                             "<summary>the drawings as a table</summary>", "There is no <code>weather.csv",
                             "<h2>Yield at a reading of 100</h2>", "what moving on costs and gains",
                             "Going from <b>Long Acre</b> to "
                             "<b>Far Piece</b> now and back later",
                             "What to do with it is for people to say."}) {
        INFO(part);
        CHECK(has(html, part));
    }
    for (const char* word : {"should", "must", "recommend", "advise", "in money"}) {
        INFO(word);
        CHECK_FALSE(has(html, word));
    }
    CHECK_FALSE(has(html, "heat units by the day"));
    made.day.ripeness.price_per_t = 300.0;
    CHECK(has(maturity_html(made.day, made.result), "(1500 in money)"));  // 5 t
    made.day.maturity.clear();
    made.ripen();
    CHECK(maturity_html(made.day, made.result).empty());
}

TEST_CASE("With weather the report tells heat units by the day and since sowing") {
    Made made;
    const long today = *day_number("2025-06-27");
    for (long d = today - 20; d <= today + 2; ++d) made.day.weather.push_back({d, 10.0, 20.8});
    made.day.fields[0].sown = "2025-06-10";
    made.ripen();
    CHECK(*made.result.maturity[0].heat_units == Approx(17 * 11.0));
    CHECK_FALSE(made.result.maturity[1].heat_units.has_value());
    const std::string html = maturity_html(made.day, made.result);
    CHECK(has(html, "<td>187</td>"));
    CHECK(has(html,
              "<td>2025-06-28</td><td class=\"words\">forecast</td><td>10.0</td><td>20.8</td><td>11.0</td>"));
    CHECK_FALSE(has(html, "<td>2025-06-19</td>"));
    CHECK(has(html, "above 4.4 °C (<code>heat_base_c</code>)"));
}

TEST_CASE("A field without a target, and one that no boundary names, are told without a window") {
    Made made;
    made.day.fields = {field("Long Acre", 0)};
    made.ripen();
    REQUIRE(made.result.maturity.size() == 2);
    CHECK(made.result.maturity[1].field == "Far Piece");
    for (const FieldMaturity& m : made.result.maturity) {
        CHECK_FALSE(m.window.has_value());
        CHECK_FALSE(m.enters.has_value());
    }
    const std::string html = maturity_html(made.day, made.result);
    CHECK(has(html, "no target"));
    CHECK_FALSE(has(html, "enters the window"));
}

TEST_CASE("Readings of another season or of a clock gone wrong are left out and told") {
    Made made;
    const std::vector<MaturityReading> own = made.day.maturity;
    const Believed before = made.result.maturity[0].now;
    made.day.maturity.insert(made.day.maturity.begin(), {kNow - 365.0 * kDay, "Long Acre", 150});
    made.day.maturity.push_back({kNow + 3650.0 * kDay, "Far Piece", 90});
    made.ripen();
    REQUIRE(made.result.maturity.size() == 2);
    CHECK(made.result.maturity[0].now.middle == before.middle);
    CHECK(has(maturity_html(made.day, made.result), "after the logs' end are left out: 2."));
    made.day.maturity = own;
    made.ripen();
    CHECK_FALSE(has(maturity_html(made.day, made.result), "left out"));
    CHECK_FALSE(has(maturity_html(made.day, made.result), "contradict"));
    made.day.maturity[2].tenderometer = 60;
    made.ripen();
    CHECK(has(maturity_html(made.day, made.result), "The readings of Long Acre contradict one another"));
    made.day.maturity = {{kNow - 365.0 * kDay, "Long Acre", 150}};
    made.ripen();
    CHECK(made.result.maturity.empty());
}

TEST_CASE("The handover sheet tells what is left of the fields and until when it is wanted") {
    Made made;
    made.result.fields.push_back(figures("Done Field", 9000, 2, 0.01, 9000));
    const std::string html = handover_html(made.day, made.result);
    CHECK(has(html, "<tr><td>Long Acre</td><td>6.00</td><td>96 ("));
    CHECK(has(html, "<td>100 to 115</td>"));
    CHECK_FALSE(has(html, "Done Field"));
    made.result.fields.clear();
    made.result.maturity.clear();
    CHECK_FALSE(has(handover_html(made.day, made.result), "<h2>Fields</h2>"));
}

TEST_CASE("A page's contents link to each of its parts once") {
    const std::string page = with_contents("<p>a</p>@@<h2>Loss</h2><p>b</p><h2>Fields &amp; all</h2>", "@@");
    CHECK(
        page ==
        "<p>a</p><nav class=\"contents\"><a href=\"#part1\">Loss</a><a href=\"#part2\">Fields &amp; "
        "all</a></nav>\n"
        "<span id=\"part1\"></span><h2>Loss</h2><p>b</p><span id=\"part2\"></span><h2>Fields &amp; all</h2>");
    CHECK(with_contents("<p>a</p>@@", "@@") == "<p>a</p>");
    CHECK(with_contents("<h2>unclosed", "@@") == "<h2>unclosed");
}

TEST_CASE("Tables and summary carry the same figures") {
    const Made made;
    const std::string csv = maturity_forecast_csv(made.result);
    CHECK(csv.rfind("field,unix_s,forecast,tenderometer,tenderometer_low,tenderometer_high,in_window_pct\n",
                    0) == 0);
    CHECK(has(csv, "\nFar Piece,"));
    // Each three hours from the first reading to a week ahead: 2.1 + 7 days.
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 1 + 2 * 73);
    const std::string fields = fields_csv(made.result);
    CHECK(has(fields,
              "cost,tenderometer,yield_adjusted_tpha,yield_adjusted_tpha_low,yield_adjusted_tpha_high\n"));
    CHECK(has(fields, "\nFar Piece,8.0000,0.0000,8.0000,0.0000,0.0000,0.0000,,,,,,,,0,0.000,,,,,,,,\n"));
    const nlohmann::json summary = nlohmann::json::parse(summary_json(made.day, made.result));
    const nlohmann::json& here = summary["fields"][0];
    const AdjustedYield adjusted = *made.result.maturity[0].adjusted;
    CHECK(here["yield_adjusted_tpha"].get<double>() == Approx(adjusted.yield_tpha.middle).margin(0.0005));
    CHECK(here["maturity"]["window_high"] == 115.0);
    CHECK(here["maturity"]["enters"]["likely_unix_s"].get<double>() ==
          Approx(made.result.maturity[0].enters->middle).margin(0.5));
    CHECK(here["maturity"]["heat_units"].is_null());
    CHECK(summary["fields"][1]["yield_adjusted_tpha"].is_null());
    CHECK(summary["fields"][1]["maturity"]["in_window_pct"].get<double>() > 90.0);
}

TEST_CASE("Moments are told in the time zone to the hour") {
    CHECK(moment_text(kNow + 1700.0, "Europe/London") == "27 Jun 15:00");
    CHECK(moment_text(kNow + 1900.0, "Europe/London") == "27 Jun 16:00");
    CHECK(moment_text(kNow + 1700.0, "Etc/UTC", 60.0) == "27 Jun 14:28");
    CHECK(moment_text(std::numeric_limits<double>::infinity(), "Etc/UTC") == "later");
    CHECK(moment_text(-std::numeric_limits<double>::infinity(), "Etc/UTC") == "earlier");
    CHECK(date_text(kNow + 12.0 * 3600.0, "Etc/UTC") == "28 Jun");
}
