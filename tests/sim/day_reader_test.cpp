#include <catch2/catch.hpp>

#include "day/day.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;

namespace {

const std::string kTop = "label = \"A day\"\ndate = 2025-06-27\n";
const std::string kMachine = "[[machine]]\nid = \"viner_1\"\nlog = \"viner_1.csv\"\nwidth_m = 3.3\n";

sim::Day read(const std::string& toml) {
    const test::TempFolder folder;
    (void)folder.file("day.toml", toml);
    return sim::read_day(folder.path());
}

sim::Problem refusal_of(const std::string& toml) {
    try {
        (void)read(toml);
    } catch (const sim::RefusedInput& refused) {
        return refused.problem();
    }
    throw std::logic_error("the day was not refused");
}

}  // namespace

TEST_CASE("A day is read with its machines and defaults") {
    const sim::Day day = read(kTop + kMachine + "drum_lag_s = 9\n" +
                              "[[machine]]\nid = \"viner_2\"\nlog = \"logs/two.csv.zst\"\nwidth_m = 4\n");
    CHECK(day.label == "A day");
    CHECK(day.date == "2025-06-27");
    CHECK(day.time_zone == "Etc/UTC");
    REQUIRE(day.machines.size() == 2);
    CHECK(day.machines[0].id == "viner_1");
    CHECK(day.machines[0].parameters.width_m == 3.3F);
    CHECK(day.machines[0].parameters.drum_lag_s == 9.0F);
    CHECK(day.machines[0].parameters.drum_dead_time_s == Parameters{}.drum_dead_time_s);
    CHECK(day.machines[1].log.filename() == "two.csv.zst");
    CHECK(day.fields.empty());
    CHECK(day.tray_checks.empty());
    CHECK(day.intake_plan.empty());
    CHECK(day.problems.count() == 0);
}

TEST_CASE("Label and date may be missing and a date may be quoted") {
    CHECK(read(kMachine).date.empty());
    CHECK_FALSE(read(kMachine).label.empty());
    CHECK(read("date = \"2025-06-27\"\n" + kMachine).date == "2025-06-27");
}

TEST_CASE("Each refusal of a day names its line and reason and mend") {
    const struct {
        std::string toml;
        std::uint64_t line;
        const char* reason;
        const char* mend;
    } refusals[] = {
        {"label = \n" + kMachine, 1, "", "TOML"},
        {kTop, 1, "has no 'machine'", "[[machine]]"},
        {kTop + "machine = 5\n", 3, "'machine' is no list", "[[machine]]"},
        {kTop + "machine = []\n", 3, "'machine' is no list", "[[machine]]"},
        {kTop + "[[machine]]\nlog = \"a.csv\"\nwidth_m = 3\n", 3, "has no 'id'", "viner_1"},
        {kTop + "[[machine]]\nid = \"a\"\nwidth_m = 3\n", 3, "has no 'log'", "viner_1.csv"},
        {kTop + "[[machine]]\nid = \"a\"\nlog = \"a.csv\"\n", 3, "has no 'width_m'", "width_m = "},
        {kTop + "[[machine]]\nid = 7\nlog = \"a.csv\"\nwidth_m = 3\n", 4, "'id' is not text", "quotes"},
        {kTop + "[[machine]]\nid = \"a/b\"\nlog = \"a.csv\"\nwidth_m = 3\n", 4, "can't be a file's name",
         "letters"},
        {kTop + "[[machine]]\nid = \"a\"\nlog = \"../a.csv\"\nwidth_m = 3\n", 5, "leads out", "inside"},
        {kTop + "[[machine]]\nid = \"a\"\nlog = \"/etc/a.csv\"\nwidth_m = 3\n", 5, "leads out", "inside"},
        {kTop + "[[machine]]\nid = \"a\"\nlog = \"\"\nwidth_m = 3\n", 5, "leads out", "inside"},
        {kTop + "[[machine]]\nid = \"a\"\nlog = \"a.csv\"\nwidth_m = \"3\"\n", 6, "'width_m' is not a number",
         "0.5"},
        {kTop + kMachine + "[[machine]]\nid = \"viner_1\"\nlog = \"other.csv\"\nwidth_m = 3\n", 7,
         "id 'viner_1' stands twice", "own id"},
        {kTop + kMachine + "[[machine]]\nid = \"other\"\nlog = \"./viner_1.csv\"\nwidth_m = 3\n", 7,
         "log 'viner_1.csv' stands twice", "own log"},
        {"time_zone = \"Mars/North\"\n" + kMachine, 1, "time zone 'Mars/North' is not known",
         "Europe/London"},
        {"date = \"27.6.2025\"\n" + kMachine, 1, "'date' is no date", "2025-06-27"},
        {"label = 5\n" + kMachine, 1, "'label' is not text", "quotes"},
    };
    for (const auto& r : refusals) {
        const sim::Problem problem = refusal_of(r.toml);
        INFO(sim::to_text(problem));
        CHECK(problem.file.find("day.toml") != std::string::npos);
        CHECK(problem.line == r.line);
        CHECK(problem.reason.find(r.reason) != std::string::npos);
        CHECK(problem.mend.find(r.mend) != std::string::npos);
    }
}

TEST_CASE("Each parameter out of its range is refused with value and range") {
    for (const ParameterInfo& info : kParameterTable) {
        const std::string name = info.name;
        const std::string rest =
            name == "width_m" ? kTop + "[[machine]]\nid = \"a\"\nlog = \"a.csv\"\n" : kTop + kMachine;
        for (const std::string bad : {"1e7", "-1e7", "nan"}) {
            const sim::Problem problem = refusal_of(rest + name + " = " + bad + "\n");
            INFO(sim::to_text(problem));
            CHECK(problem.reason.find("'" + name + "' = ") != std::string::npos);
            CHECK(problem.reason.find("out of range") != std::string::npos);
            CHECK(problem.mend.find("give a number from ") == 0);
            CHECK(problem.line == (name == "width_m" ? 6 : 7));
        }
    }
}

TEST_CASE("A number that is not finite is not told as zero") {
    CHECK(refusal_of(kTop + kMachine + "drum_lag_s = nan\n").reason.find("= nan") != std::string::npos);
    CHECK(refusal_of(kTop + kMachine + "drum_lag_s = inf\n").reason.find("= inf") != std::string::npos);
}

TEST_CASE("What an hour of a machine costs is read, and is not known where it is not told") {
    CHECK_FALSE(read(kTop + kMachine).machines[0].cost_per_h.has_value());
    const sim::Day day = read(kTop + kMachine + "cost_per_h = 310.5\n");
    CHECK(day.machines[0].cost_per_h == 310.5);
    CHECK(day.problems.count() == 0);
    CHECK(refusal_of(kTop + kMachine + "cost_per_h = -1\n").line == 7);
}

TEST_CASE("An unknown key of a machine is noted and passed over") {
    const sim::Day day = read(kTop + kMachine + "colour = \"green\"\n");
    CHECK(day.machines.size() == 1);
    REQUIRE(day.problems.count() == 1);
    CHECK(day.problems.faults() == 0);
    CHECK(day.problems.kept().front().line == 7);
    CHECK(day.problems.kept().front().reason == "unknown key 'colour' passed over");
}

TEST_CASE("An unknown key of the day is noted and passed over") {
    const sim::Day day = read("labell = 3\n" + kMachine);
    REQUIRE(day.problems.count() == 1);
    CHECK(day.problems.faults() == 0);
    CHECK(day.problems.kept().front().reason == "unknown key 'labell' passed over");
    CHECK(day.problems.kept().front().line == 1);
}

TEST_CASE("A date that no calendar has is refused") {
    for (const std::string date : {"2025-13-01", "2025-00-10", "2025-06-32", "2025-06-00"}) {
        INFO(date);
        CHECK(refusal_of("date = \"" + date + "\"\n" + kMachine).reason.find("'date' is no date") !=
              std::string::npos);
    }
}

TEST_CASE("A folder without day.toml is refused with the other way to go") {
    const test::TempFolder folder;
    try {
        (void)sim::read_day(folder.path());
        FAIL("taken");
    } catch (const sim::RefusedInput& refused) {
        CHECK(std::string(refused.what()).find("holds no day.toml") != std::string::npos);
        CHECK(refused.problem().mend.find("--width") != std::string::npos);
    }
}

TEST_CASE("More machines than a day can have are refused") {
    std::string toml = kTop;
    for (int i = 0; i < 65; ++i) {
        toml += "[[machine]]\nid = \"v" + std::to_string(i) + "\"\nlog = \"a.csv\"\nwidth_m = 3\n";
    }
    CHECK(refusal_of(toml).reason.find("64 machines") != std::string::npos);
}

TEST_CASE("A day of one log is named after it") {
    CHECK(sim::day_of_one_log("/logs/viner_7.csv", 3.0).machines.front().id == "viner_7");
    CHECK(sim::day_of_one_log("/logs/viner_7.csv.zst", 3.0).machines.front().id == "viner_7");
    const sim::Day odd = sim::day_of_one_log("/logs/monday morning.csv", 4.5);
    CHECK(odd.machines.front().id == "viner");
    CHECK(odd.machines.front().parameters.width_m == 4.5F);
}

TEST_CASE("Keys of the day's books have defaults and ranges") {
    const sim::HoursKeys plain = read(kMachine).hours;
    CHECK(plain.stop_least_s == 60.0);
    CHECK(plain.road_min == 25.0);
    CHECK(plain.fresh_limit_min == 150.0);
    CHECK(plain.fresh_from == sim::FreshFrom::cutting);
    const sim::Day day =
        read("stop_least_s = 90\nroad_min = 12.5\nfresh_limit_min = 120\nfresh_from = \"leaving_field\"\n" +
             kMachine);
    CHECK(day.hours.stop_least_s == 90.0);
    CHECK(day.hours.road_min == 12.5);
    CHECK(day.hours.fresh_limit_min == 120.0);
    CHECK(day.hours.fresh_from == sim::FreshFrom::leaving_field);
    CHECK(day.problems.count() == 0);
    CHECK(refusal_of("stop_least_s = 0\n" + kMachine).reason.find("stop_least_s") != std::string::npos);
    CHECK(refusal_of("road_min = -1\n" + kMachine).line == 1);
    CHECK(refusal_of("fresh_limit_min = true\n" + kMachine).reason.find("not a number") != std::string::npos);
    CHECK(refusal_of("fresh_from = \"shops\"\n" + kMachine).mend.find("leaving_field") != std::string::npos);
}

TEST_CASE("A map's cells are of ten metres unless the day says otherwise") {
    CHECK(read(kMachine).map_cell_m == 10.0);
    const sim::Day day = read("map_cell_m = 7.5\n" + kMachine);
    CHECK(day.map_cell_m == 7.5);
    CHECK(day.problems.count() == 0);
    CHECK(refusal_of("map_cell_m = 4\n" + kMachine).reason.find("map_cell_m") != std::string::npos);
    CHECK(refusal_of("map_cell_m = 101\n" + kMachine).line == 1);
}

TEST_CASE("Shifts are times of day in order") {
    const std::string four = "[[shift]]\nat = \"04:30\"\n";
    const sim::Day day = read(four + "[[shift]]\nat = \"16:00\"\n" + kMachine);
    CHECK(day.hours.shift_minutes == std::vector<int>{270, 960});
    CHECK(day.problems.count() == 0);
    CHECK(read(kMachine).hours.shift_minutes.empty());
    for (const char* at : {"24:00", "12:60", "4:30", "a4:30", "04-30", ""}) {
        INFO(at);
        const sim::Problem refusal = refusal_of("[[shift]]\nat = \"" + std::string(at) + "\"\n" + kMachine);
        CHECK(refusal.line == 2);
        CHECK(refusal.mend.find("06:00") != std::string::npos);
    }
    CHECK(refusal_of(four + four + kMachine).reason.find("begin after") != std::string::npos);
    CHECK(refusal_of("shift = 3\n" + kMachine).reason.find("no list") != std::string::npos);
    CHECK(refusal_of("shift = [3]\n" + kMachine).reason.find("no table") != std::string::npos);
}
