// The forecast's 90 % ranges on synthetic fields whose ripening is known.
#include <catch2/catch.hpp>
#include <fstream>

#include "day/maturity_files.hpp"
#include "maturity/field_maturity.hpp"
#include "support/temp_folder.hpp"
#include "synth/write/maturity_texts.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

// Four mornings of samples, of fields that ripen by 0.2 to 0.6 % a heat unit.
constexpr const char* kScenario = R"(
label = "ripening"
date = 2025-06-27
seed = 1
start_unix_s = 1751004000
hours = 1
origin_lat_deg = 52.6
origin_lon_deg = 2.9
[weather]
days_before = 6
days_after = 13
[[field]]
name = "Long Acre"
corners_m = [[0, 0], [300, 0], [300, 200], [0, 200]]
tenderometer = [88, 108]
ripening_pct_per_heat_unit = [0.2, 0.6]
target_tenderometer = 105
[[machine]]
id = "viner_1"
[[maturity]]
field = "Long Acre"
at_s = -259200
[[maturity]]
field = "Long Acre"
at_s = -172800
[[maturity]]
field = "Long Acre"
at_s = -86400
[[maturity]]
field = "Long Acre"
at_s = -1800
)";

struct Inside {
    int held = 0;
    int all = 0;
    void add(const Believed& believed, double truth) {
        ++all;
        held += believed.low <= truth && truth <= believed.high ? 1 : 0;
    }
    [[nodiscard]] double pct() const { return 100.0 * held / all; }
};

struct Coverage {
    Inside enters;
    Inside leaves;
    Inside in_two_days;
};

// When the truth comes to `points`; nothing where that is not on the days told.
std::optional<double> true_crossing(const CropField& crop, const Scenario& s, double points) {
    const double start_s = static_cast<double>(s.start_unix_s);
    for (double at_s = -3.0 * 86400.0; at_s < 13.0 * 86400.0; at_s += 900.0) {
        if (crop.tenderometer(at_s) < points && crop.tenderometer(at_s + 900.0) >= points)
            return start_s + at_s + 450.0;
    }
    return std::nullopt;
}

// `off_points`: of a tenderometer that reads that much too high.
Coverage coverage(bool with_weather, double reading_sd, int seeds, double off_points = 0.0) {
    const test::TempFolder folder;
    const auto scenario_file = folder.file("scenario.toml", kScenario);
    Coverage c;
    for (int seed = 1; seed <= seeds; ++seed) {
        const Scenario s = read_scenario(scenario_file, static_cast<std::uint64_t>(seed));
        const CropField crop(s.fields[0], s.seed, true_ripening(s, s.fields[0]));
        Day day;
        day.ripeness.reading_sd = reading_sd;
        Problems problems;
        day.maturity = read_maturity(folder.file("maturity.csv", maturity_text(s, {crop})), problems);
        for (MaturityReading& reading : day.maturity) reading.tenderometer += off_points;
        if (with_weather)
            day.weather =
                read_weather(folder.file("weather.csv", weather_text(true_weather(s).told)), problems);
        REQUIRE(problems.count() == 0);
        Field field;
        field.name = "Long Acre";
        field.target_tenderometer = 105.0;
        day.fields.push_back(field);
        const std::vector<FieldMaturity> all = field_maturity(day, {}, s.start_unix_s * kSecondUs);
        REQUIRE(all.size() == 1);
        const FieldMaturity& m = all.front();
        const std::optional<double> enters = true_crossing(crop, s, m.window->low);
        const std::optional<double> leaves = true_crossing(crop, s, m.window->high);
        if (enters) c.enters.add(*m.enters, *enters);
        if (leaves) c.leaves.add(*m.leaves, *leaves);
        const double ahead_s = 2.0 * 86400.0;
        c.in_two_days.add(m.ripening.at(m.now_s + ahead_s),
                          crop.tenderometer(m.now_s + ahead_s - static_cast<double>(s.start_unix_s)));
    }
    return c;
}

}  // namespace

TEST_CASE("Nine times in ten a field enters and leaves its window within the range told") {
    const Coverage c = coverage(true, 1.5, 400);
    UNSCOPED_INFO("enters " << c.enters.pct() << " % of " << c.enters.all << ", leaves " << c.leaves.pct()
                            << " % of " << c.leaves.all << ", in two days " << c.in_two_days.pct() << " %");
    CHECK(c.enters.all > 300);
    CHECK(c.leaves.all > 300);
    for (const Inside& inside : {c.enters, c.leaves, c.in_two_days}) {
        CHECK(inside.pct() >= 85.0);
        CHECK(inside.pct() <= 95.0);
    }
}

TEST_CASE("Without weather, and with a reading's error told too great, the range still holds") {
    const Coverage by_days = coverage(false, 1.5, 200);
    UNSCOPED_INFO("by days: enters " << by_days.enters.pct() << " %, leaves " << by_days.leaves.pct()
                                     << " %");
    CHECK(by_days.enters.pct() >= 85.0);
    CHECK(by_days.leaves.pct() >= 80.0);
    const Coverage cautious = coverage(true, 2.0, 200);
    UNSCOPED_INFO("sd 2: enters " << cautious.enters.pct() << " %, leaves " << cautious.leaves.pct() << " %");
    CHECK(cautious.enters.pct() >= 88.0);
    CHECK(cautious.leaves.pct() >= 88.0);
}

TEST_CASE("A tenderometer that reads four points too high is seen in the ranges") {
    // So that the checks above can fail.
    const Coverage high = coverage(true, 1.5, 200, 4.0);
    CHECK(high.enters.pct() < 60.0);
    CHECK(high.in_two_days.pct() < 85.0);
}
