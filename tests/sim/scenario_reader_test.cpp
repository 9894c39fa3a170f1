#include <catch2/catch.hpp>
#include <cmath>

#include "log/problem.hpp"
#include "support/temp_folder.hpp"
#include "synth/land/crop_field.hpp"
#include "synth/scenario/scenario.hpp"
#include "synth/write/day_files.hpp"
#include "synth/write/maturity_texts.hpp"

using namespace podrate;

namespace {

const std::string kGood = R"(label = "Test day"
date = 2025-06-27
seed = 7
start_unix_s = 1751032800
hours = 0.5
origin_lat_deg = 52.6
origin_lon_deg = 2.9

[[field]]
name = "Long Acre"
corners_m = [[0, 0], [300, 0], [300, 200], [0, 200]]

[[machine]]
id = "viner_1"

[[event]]
machine = "viner_1"
kind = "breakdown"
at_s = 100
for_s = 60

[[move]]
at_s = 500
to_field = "Long Acre"

[[tray_check]]
machine = "viner_1"
at_s = 300

[[maturity]]
field = "Long Acre"
at_s = -600
tenderometer = 101
)";

sim::Scenario read(const std::string& text) {
    const test::TempFolder folder;
    return sim::read_scenario(folder.file("day.toml", text));
}

// The good scenario with one line put in the place of another.
std::string with(const std::string& old_line, const std::string& new_line) {
    std::string text = kGood;
    const std::size_t at = text.find(old_line + "\n");
    REQUIRE(at != std::string::npos);
    return text.replace(at, old_line.size(), new_line);
}

void check_refused(const std::string& text, const std::vector<std::string>& told) {
    try {
        (void)read(text);
        FAIL("taken");
    } catch (const sim::RefusedInput& refused) {
        const std::string what = refused.what();
        for (const std::string& part : told) {
            INFO(what);
            CHECK(what.find(part) != std::string::npos);
        }
        CHECK(what.find("day.toml") != std::string::npos);
        CHECK_FALSE(refused.problem().mend.empty());
    }
}

}  // namespace

TEST_CASE("A scenario is read with its defaults") {
    const sim::Scenario s = read(kGood);
    CHECK(s.label == "Test day");
    CHECK(s.date == "2025-06-27");
    CHECK(s.time_zone == "Etc/UTC");
    CHECK(s.seed == 7);
    CHECK(s.start_unix_s == 1751032800);
    CHECK(s.compressed);
    REQUIRE(s.fields.size() == 1);
    CHECK(s.fields[0].corners.size() == 4);
    REQUIRE(s.machines.size() == 1);
    CHECK(s.machines[0].senses.rate_hz == 10);
    REQUIRE(s.events.size() == 1);
    CHECK(s.events[0].kind == sim::ScenarioEvent::Kind::breakdown);
    CHECK(s.moves.size() == 1);
    CHECK(s.trays.size() == 1);
    CHECK(s.maturity.size() == 1);
}

TEST_CASE("Each number out of its range is refused with key and value and range") {
    const struct {
        const char* line;
        const char* bad;
        const char* range;
    } numbers[] = {
        {"hours = 0.5", "hours = 100", "0.05 to 72"},
        {"hours = 0.5", "hours = 0", "0.05 to 72"},
        {"origin_lat_deg = 52.6", "origin_lat_deg = 86", "-85 to 85"},
        {"origin_lon_deg = 2.9", "origin_lon_deg = -181", "-180 to 180"},
        {"seed = 7", "seed = -1", "0 to"},
        {"for_s = 60", "for_s = 0", "1 to 864000"},
        {"tenderometer = 101", "tenderometer = 300", "50 to 250"},
    };
    for (const auto& number : numbers) {
        INFO(number.bad);
        const std::string bad = number.bad;
        const std::size_t equals = bad.find(" = ");
        check_refused(with(number.line, bad), {"'" + bad.substr(0, equals) + "'", bad.substr(equals + 3),
                                               "out of range", number.range});
    }
}

TEST_CASE("Each number of a machine and a field is checked") {
    for (const std::string key : {"width_m",
                                  "hopper_capacity_kg",
                                  "speed_mps",
                                  "speed_spread",
                                  "drum_dead_time_s",
                                  "drum_lag_s",
                                  "told_dead_time_s",
                                  "told_lag_s",
                                  "haulm_ratio",
                                  "rated_feed_kgps",
                                  "picking_loss_share",
                                  "drum_loss_share",
                                  "feed_steepness_kgps",
                                  "noise_moving_kg",
                                  "noise_still_kg",
                                  "tone_kg",
                                  "tone_hz",
                                  "zero_kg",
                                  "zero_drift_kg",
                                  "quantum_kg",
                                  "slip_share"}) {
        INFO(key);
        for (const std::string bad : {"1e9", "-1e9", "nan", "inf"}) {
            check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\n" + key + " = " + bad),
                          {"[[machine]] 1", "'" + key + "'", "out of range", "give a number from"});
        }
        check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\n" + key + " = \"wide\""),
                      {key, "not a number"});
    }
    for (const std::string key : {"bout_heading_deg", "headland_m", "crop_kgpm2", "crop_cv", "crop_length_m",
                                  "slope_deg", "downhill_deg", "target_tenderometer"}) {
        INFO(key);
        check_refused(with("name = \"Long Acre\"", "name = \"Long Acre\"\n" + key + " = 1e9"),
                      {"[[field]] 1", "'" + key + "'", "out of range"});
    }
}

TEST_CASE("What is missing is named with an example") {
    for (const std::string line :
         {"label = \"Test day\"", "date = 2025-06-27", "seed = 7", "hours = 0.5", "start_unix_s = 1751032800",
          "origin_lat_deg = 52.6", "for_s = 60", "kind = \"breakdown\"", "name = \"Long Acre\"",
          "id = \"viner_1\"", "to_field = \"Long Acre\""}) {
        const std::string key = line.substr(0, line.find(" = "));
        INFO(key);
        check_refused(with(line, ""), {"has no '" + key + "'", "add a line like " + key + " = "});
    }
}

TEST_CASE("A reading of ripeness that the scenario gives is written as it is") {
    const sim::Scenario s = read(with("name = \"Long Acre\"", "name = \"Long Acre\"\ntenderometer = 120"));
    const std::vector<sim::CropField> crops = {sim::CropField(s.fields[0], s.seed)};
    CHECK(sim::maturity_text(s, crops) == "unix_s,field,tenderometer\n1751032200,Long Acre,101\n");
}

TEST_CASE("A reading of ripeness left out is the field's truth with a reading's error") {
    std::string text = with("tenderometer = 101", "");
    const std::string name = "name = \"Long Acre\"";
    text.replace(text.find(name), name.size(), name + "\ntenderometer = 120\ntenderometer_per_day = 6");
    // Twelve hours on the field is three points riper.
    const std::string time = "at_s = -600";
    text.replace(text.find(time), time.size(), "at_s = 43200");
    double sum = 0.0;
    double squares = 0.0;
    constexpr int kSeeds = 400;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        sim::Scenario s = read(text);
        REQUIRE(s.maturity[0].tenderometer == 0.0);
        s.seed = seed;
        const std::vector<sim::CropField> crops = {sim::CropField(s.fields[0], s.seed)};
        const std::string written = sim::maturity_text(s, crops);
        const std::string row = "1751076000,Long Acre,";
        REQUIRE(written.find(row) != std::string::npos);
        const double off = std::stod(written.substr(written.find(row) + row.size())) - 123.0;
        sum += off;
        squares += off * off;
    }
    // 1.5 points, rounded to whole ones; five standard deviations of chance.
    const double sd = std::sqrt(1.5 * 1.5 + 1.0 / 12.0);
    CHECK(sum / kSeeds == Approx(0.0).margin(5.0 * sd / std::sqrt(kSeeds)));
    CHECK(std::sqrt(squares / kSeeds) == Approx(sd).epsilon(5.0 / std::sqrt(2.0 * kSeeds)));
}

TEST_CASE("A reading of ripeness that nothing tells is refused or left out") {
    std::string written;
    try {
        const sim::Scenario s = read(with("tenderometer = 101", ""));
        written = sim::maturity_text(s, {sim::CropField(s.fields[0], s.seed)});
    } catch (const sim::RefusedInput& refused) {
        CHECK(std::string(refused.what()).find("tenderometer") != std::string::npos);
    }
    CHECK(written.find("Long Acre") == std::string::npos);
}

TEST_CASE("Words that are not known are refused") {
    check_refused(with("kind = \"breakdown\"", "kind = \"lunch\""),
                  {"kind 'lunch' is not known", "pause_in_crop"});
    check_refused(with("seed = 7", "seed = 7\nlog_format = \"xls\""), {"log_format 'xls'", "csv.zst"});
    check_refused(with("seed = 7", "seed = 7\ntime_zone = \"Mars/North\""), {"Mars/North"});
    check_refused(with("date = 2025-06-27", "date = \"June\""), {"'date' is no date", "2025-06-27"});
}

TEST_CASE("Keys that are not known are refused wherever they stand") {
    check_refused(with("seed = 7", "seed = 7\nseeed = 8"), {"unknown key 'seeed'"});
    check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\ncolour = 3"), {"unknown key 'colour'"});
    check_refused(with("name = \"Long Acre\"", "name = \"Long Acre\"\nhedge = 3"), {"unknown key 'hedge'"});
    check_refused(with("for_s = 60", "for_s = 60\nwhy = 3"), {"unknown key 'why'"});
    check_refused(with("to_field = \"Long Acre\"", "to_field = \"Long Acre\"\nvia = 3"),
                  {"unknown key 'via'"});
    check_refused(with("tenderometer = 101", "tenderometer = 101\nby = 3"), {"unknown key 'by'"});
}

TEST_CASE("Names that lead nowhere are refused") {
    check_refused(with("kind = \"breakdown\"\nat_s = 100", "kind = \"breakdown\"\nat_s = 100\nmachine2 = 1"),
                  {"machine2"});
    check_refused(with("machine = \"viner_1\"", "machine = \"viner_9\""),
                  {"machine 'viner_9' is not in this scenario"});
    check_refused(with("to_field = \"Long Acre\"", "to_field = \"Nowhere\""),
                  {"field 'Nowhere' is not in this"});
    check_refused(with("field = \"Long Acre\"", "field = \"Nowhere\""), {"Nowhere"});
}

TEST_CASE("Machine ids that can't be a file's name or stand twice are refused") {
    for (const std::string id : {"../viner", "a b", "", "v/1", "straße", "a.csv"}) {
        INFO(id);
        check_refused(with("id = \"viner_1\"", "id = \"" + id + "\""), {"file's name"});
    }
    check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\n[[machine]]\nid = \"viner_1\""),
                  {"viner_1", "twice"});
}

TEST_CASE("Corners that make no field are refused") {
    const std::string line = "corners_m = [[0, 0], [300, 0], [300, 200], [0, 200]]";
    check_refused(with(line, "corners_m = 5"), {"'corners_m' is no list"});
    check_refused(with(line, "corners_m = [[0, 0], [1, 1]]"), {"fewer than three corners"});
    check_refused(with(line, "corners_m = [[0, 0], [1, 1], [2]]"), {"no pair of numbers"});
    check_refused(with(line, "corners_m = [[0, 0], [1, 1], [\"a\", 3]]"), {"no pair of numbers"});
    for (const std::string far : {"1e300", "-1e9", "nan", "inf"}) {
        check_refused(with(line, "corners_m = [[0, 0], [100, 1], [" + far + ", 300]]"), {"corner"});
    }
}

TEST_CASE("A log has 1 to 50 rows a second") {
    for (const std::string rate : {"0.5", "51", "-1"}) {
        check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\nrate_hz = " + rate),
                      {"rate_hz", "out of range"});
    }
    for (const std::string rate : {"1", "7.5", "10", "50"}) {
        CHECK(read(with("id = \"viner_1\"", "id = \"viner_1\"\nrate_hz = " + rate))
                  .machines[0]
                  .senses.rate_hz == std::stod(rate));
    }
}

TEST_CASE("Obstacles, shifts, trailers and how the scale is logged are read, or refused with the mend") {
    const std::string field = "corners_m = [[0, 0], [300, 0], [300, 200], [0, 200]]";
    const sim::Scenario s = read(with(field, field + "\nobstacles_m = [[100, 50, 4], [200, 80, 10]]") +
                                 "[[shift]]\nat_s = 3600\nfor_s = 300\n[trailers]\ncount = 3\n");
    REQUIRE(s.fields[0].obstacles.size() == 2);
    CHECK(s.fields[0].obstacles[1].radius_m == 10.0);
    REQUIRE(s.shifts.size() == 1);
    CHECK(s.shifts[0].for_s == 300.0);
    CHECK(s.trailers.count == 3.0);
    check_refused(with(field, field + "\nobstacles_m = [[100, 50]]"), {"obstacle", "[east, north, radius]"});
    check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\nlogged_as = \"kilos\""),
                  {"logged_as", "\"sum\" or \"cells\""});
    check_refused(with("id = \"viner_1\"", "id = \"viner_1\"\ncells = 5"), {"cells", "out of range"});
}

TEST_CASE("A scenario that is no TOML is refused with its line") {
    check_refused("label = \"x\"\nhours = = 3\n", {"day.toml:2"});
    check_refused(with("[[machine]]", "[machine]"), {"'machine' is no list", "[[machine]]"});
    check_refused("", {"has no 'label'"});
    CHECK_THROWS_AS(sim::read_scenario("/nonexistent/day.toml"), sim::RefusedInput);
}

TEST_CASE("A scenario without fields or with too many machines is refused") {
    std::string no_field = kGood;
    no_field.erase(no_field.find("[[field]]"), no_field.find("[[machine]]") - no_field.find("[[field]]"));
    check_refused(no_field, {"has no field"});
    std::string many;
    for (int i = 2; i <= 9; ++i) many += "\n[[machine]]\nid = \"viner_" + std::to_string(i) + "\"\n";
    check_refused(kGood + many, {"1 to 8 machines"});
}

TEST_CASE("Weather is drawn by the seed, told as it was up to the date and as forecast after it") {
    const std::string weather = "[weather]\ndays_before = 3\ndays_after = 2\nmin_c = 11\nmax_c = 22\n";
    const std::string place = "[[field]]";
    std::string text = with("name = \"Long Acre\"", "name = \"Long Acre\"\ntenderometer = 100");
    text.insert(text.find(place), weather);
    const sim::Scenario s = read(text);
    const sim::TrueWeather true_days = sim::true_weather(s);
    REQUIRE(true_days.happened.size() == 6);
    REQUIRE(true_days.told.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(true_days.happened[i].min_c <= true_days.happened[i].max_c);
        CHECK((true_days.told[i].min_c == true_days.happened[i].min_c) == (i < 4));
    }
    CHECK(sim::weather_text(true_days.told).rfind("date,min_c,max_c\n2025-06-24,", 0) == 0);
    sim::Scenario other = s;
    other.seed = s.seed + 1;
    CHECK(sim::weather_text(sim::true_weather(other).told) != sim::weather_text(true_days.told));
    CHECK(sim::true_ripening(s, s.fields[0]) == nullptr);
    sim::ScenarioField field = s.fields[0];
    field.ripening_pct_per_heat_unit = 0.4;
    const sim::CropField crop(field, s.seed, sim::true_ripening(s, field));
    CHECK(crop.tenderometer(0.0) == Approx(100.0));
    // 12 heat units and a day's wandering
    CHECK(crop.tenderometer(86400.0) == Approx(105.0).margin(4.0));
    CHECK(crop.tenderometer(86400.0) > crop.tenderometer(0.0));
    check_refused(text.replace(text.find("min_c = 11"), 10, "min_c = 99"),
                  {"[weather]", "'min_c'", "out of range"});
}
