// Weather, the table of yield by reading, fields' targets and the keys on ripeness.
#include <catch2/catch.hpp>

#include "day/calendar.hpp"
#include "day/day.hpp"
#include "maturity/yield_by_reading.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;

namespace {

constexpr const char* kMachine = "[[machine]]\nid = \"viner_1\"\nlog = \"viner_1.csv\"\nwidth_m = 3.3\n";

sim::Day day_with(const std::string& name, const std::string& text, const std::string& keys = "") {
    const test::TempFolder folder;
    (void)folder.file("day.toml", keys + kMachine);
    (void)folder.file(name, text);
    return sim::read_day(folder.path());
}

void check_problem(const sim::Day& day, std::size_t number, std::uint64_t line, const std::string& reason) {
    REQUIRE(day.problems.kept().size() > number);
    const sim::Problem& problem = day.problems.kept()[number];
    INFO(sim::to_text(problem));
    CHECK(problem.line == line);
    CHECK(problem.reason.find(reason) != std::string::npos);
    CHECK_FALSE(problem.mend.empty());
}

std::string refusal_of(const std::string& keys) {
    try {
        (void)day_with("maturity.csv", "", keys);
    } catch (const sim::RefusedInput& refused) {
        return refused.what();
    }
    return {};
}

}  // namespace

TEST_CASE("Weather is read day by day and its bad rows told") {
    const sim::Day day = day_with("weather.csv",
                                  "date,min_c,max_c\n2025-06-25,10,21.5\n25 June,9,20\n2025-06-26,warm,20\n"
                                  "2025-06-26,22,12\n2025-06-25,9,20\n2025-06-27,-70,20\n2025-06-28,11,23\n");
    REQUIRE(day.weather.size() == 2);
    CHECK(day.weather[0].day == *sim::day_number("2025-06-25"));
    CHECK(day.weather[0].min_c == 10.0);
    CHECK(day.weather[0].max_c == 21.5);
    CHECK(day.weather[1].day == day.weather[0].day + 3);
    REQUIRE(day.problems.count() == 5);
    check_problem(day, 0, 3, "date is '25 June', not a date");
    check_problem(day, 1, 4, "min_c is 'warm'");
    check_problem(day, 2, 5, "not in order");
    check_problem(day, 3, 6, "does not follow");
    check_problem(day, 4, 7, "outside -60 to 60");
}

TEST_CASE("Readings are put in order of time and impossible ones told") {
    const sim::Day day =
        day_with("maturity.csv",
                 "unix_s,field,tenderometer\n200,Long Acre,98\n100,Long Acre,95\n300,Long Acre,980\n"
                 "-5,Long Acre,98\n400,,98\n");
    REQUIRE(day.maturity.size() == 2);
    CHECK(day.maturity[0].unix_s == 100.0);
    REQUIRE(day.problems.count() == 3);
    check_problem(day, 0, 4, "outside 30 to 300");
    check_problem(day, 1, 5, "outside unix seconds");
    check_problem(day, 2, 6, "names no field");
}

TEST_CASE("The table of yield by reading is the day's own, or the usual one") {
    const sim::Day own = day_with("maturity_yield.csv",
                                  "tenderometer,relative_yield\n90,0.8\n100,1\n95,0.9\n110,0\n120,1.3\n");
    REQUIRE(own.yield_table.size() == 3);
    REQUIRE(own.problems.count() == 2);
    check_problem(own, 0, 4, "does not rise");
    check_problem(own, 1, 5, "outside 0 to 10");
    const sim::YieldByReading yields(own.yield_table);
    CHECK(yields.at(95) == Approx(0.9));
    CHECK(yields.at(110) == Approx(1.15));
    CHECK(yields.at(60) == Approx(0.8));
    CHECK(yields.at(200) == Approx(1.3));
    const sim::Day short_one = day_with("maturity_yield.csv", "tenderometer,relative_yield\n90,0.8\n");
    CHECK(short_one.yield_table.empty());
    check_problem(short_one, 0, 0, "fewer than two rows");
    const sim::YieldByReading usual(short_one.yield_table);
    CHECK(usual.at(100) == 1.0);
    double before = 0.0;
    for (double points = 70; points <= 160; points += 1) {
        CHECK(usual.at(points) >= before);
        before = usual.at(points);
    }
}

TEST_CASE("A field's sowing and target are read where they can be ones") {
    const auto field_with = [](const std::string& more) {
        const std::string text =
            R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Long Acre")" +
            more +
            R"(},"geometry":{"type":"Polygon","coordinates":[[[0,52],[0.01,52],[0.01,52.01],[0,52]]]}}]})";
        return day_with("fields.geojson", text).fields.at(0);
    };
    const sim::Field told = field_with(R"(,"sown":"2025-03-28","target_tenderometer":105)");
    CHECK(told.sown == "2025-03-28");
    CHECK(told.target_tenderometer == 105.0);
    CHECK(field_with(R"(,"target maturity":110)").target_tenderometer == 110.0);
    const sim::Field odd = field_with(R"(,"sown":"in March","target_tenderometer":1050)");
    CHECK(odd.sown.empty());
    CHECK_FALSE(odd.target_tenderometer.has_value());
    CHECK_FALSE(field_with("").target_tenderometer.has_value());
}

TEST_CASE("Keys on ripeness are read, and refused with their range") {
    const sim::Day day =
        day_with("maturity.csv", "",
                 "heat_base_c = 0\nheat_top_c = 27\nheat_method = \"sine\"\nreading_sd = 3\n"
                 "window_below = 7\nwindow_above = 8\ncommon_tenderometer = 105\nmove_min = 45\n"
                 "ripening_pct_per_day = 6\nprice_per_t = 300\n");
    CHECK(day.ripeness.heat_base_c == 0.0);
    CHECK(day.ripeness.heat_top_c == 27.0);
    CHECK(day.ripeness.heat_method == sim::HeatMethod::sine);
    CHECK(day.ripeness.reading_sd == 3.0);
    CHECK(day.ripeness.window_below == 7.0);
    CHECK(day.ripeness.window_above == 8.0);
    CHECK(day.ripeness.common_tenderometer == 105.0);
    CHECK(day.ripeness.move_min == 45.0);
    CHECK(day.ripeness.ripening_pct_per_day == 6.0);
    CHECK(day.ripeness.price_per_t == 300.0);
    CHECK(day.problems.count() == 0);
    CHECK(sim::MaturityKeys{}.heat_base_c == 4.4);
    CHECK(refusal_of("heat_base_c = 40\n").find("out of range") != std::string::npos);
    CHECK(refusal_of("heat_method = \"guess\"\n").find("\"mean\", \"cut\" or \"sine\"") != std::string::npos);
    CHECK(refusal_of("reading_sd = \"wide\"\n").find("not a number") != std::string::npos);
}
