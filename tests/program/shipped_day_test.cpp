// The day that ships with the program: what a fresh user sees first.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/program.hpp"
#include "support/temp_folder.hpp"

using nlohmann::json;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;
using podrate::test::text_of;

namespace fs = std::filesystem;

namespace {

const fs::path kDemo = fs::path(PODRATE_SOURCE_DIR) / "demo_logs";

// All files of a folder by their path in it.
std::map<std::string, std::string> files_of(const fs::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) {
            files[fs::relative(entry.path(), folder).string()] = text_of(entry.path());
        }
    }
    return files;
}

// Which files differ or stand on one side only.
std::string difference(const std::map<std::string, std::string>& a,
                       const std::map<std::string, std::string>& b) {
    std::string names;
    for (const auto& [name, text] : a) {
        const auto other = b.find(name);
        if (other == b.end() || other->second != text) names += name + ' ';
    }
    for (const auto& [name, text] : b) {
        if (a.count(name) == 0) names += name + ' ';
    }
    return names;
}

ProgramRun replay(const fs::path& out) {
    return run_podrate(
        {"replay", (kDemo / "harrowmere").string(), "--out", out.string(), "--estimates", "--json"});
}

// One replay for all tests of this file.
struct Replayed {
    TempFolder folder;
    fs::path out = folder / "out";
    ProgramRun run = replay(out);
};

const Replayed& replayed() {
    static const Replayed kReplayed;
    REQUIRE(kReplayed.run.exit_code == 0);
    return kReplayed;
}

json whole_score_of_shipped_day() {
    static const ProgramRun kScore =
        run_podrate({"score", replayed().out.string(), (kDemo / "harrowmere").string(), "--json"});
    INFO(kScore.err);
    REQUIRE(kScore.exit_code == 0);
    return json::parse(kScore.out);
}

json score_of_shipped_day() {
    json machines = whole_score_of_shipped_day()["machines"];
    REQUIRE(machines.size() == 3);
    return machines;
}

}  // namespace

TEST_CASE("The shipped day replays without a word of complaint") {
    CHECK(replayed().run.err.empty());
    const json summary = json::parse(replayed().run.out);
    CHECK(summary["day"] == "Harrowmere gang, Friday afternoon");
    REQUIRE(summary["machines"].size() == 3);
    for (const json& machine : summary["machines"]) {
        CHECK(machine["rows_bad"] == 0);
        const std::string id = machine["id"];
        const std::string estimates = text_of(replayed().out / ("estimates_" + id + ".csv"));
        CHECK(std::count(estimates.begin(), estimates.end(), '\n') == 1 + machine["rows_read"].get<long>());
    }
    REQUIRE(summary["fields"].size() == 2);
    CHECK(summary["total"]["planned_t"].get<double>() == Approx(38.78).margin(0.02));
}

TEST_CASE("Replaying the shipped day twice gives the same bytes") {
    const TempFolder folder;
    REQUIRE(replay(folder / "again").exit_code == 0);
    CHECK(difference(files_of(replayed().out), files_of(folder / "again")).empty());
    // Eleven for the day, four of maps, and three for each machine.
    CHECK(files_of(replayed().out).size() == 11 + 4 + 3 * 3);
}

TEST_CASE("The shipped scenario makes the shipped day again byte for byte") {
    const TempFolder folder;
    const ProgramRun run =
        run_podrate({"synth", (kDemo / "harrowmere.toml").string(), "--out", (folder / "day").string()});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(difference(files_of(folder / "day"), files_of(kDemo / "harrowmere")).empty());
}

TEST_CASE("Each machine of the shipped day harvested what the truth says within half a per cent") {
    for (const json& machine : score_of_shipped_day()) {
        INFO(machine["id"]);
        CHECK(machine["true_harvested_kg"].get<double>() > 5000.0);
        CHECK(std::abs(machine["harvested_error_pct"].get<double>()) < 0.5);
    }
}

TEST_CASE("Every load of the shipped day is found and weighed within 1 per cent or 15 kg") {
    for (const json& machine : score_of_shipped_day()) {
        CHECK(machine["loads_too_many"] == 0);
        CHECK(machine["loads"].size() >= 4);
        for (const json& load : machine["loads"]) {
            INFO(machine["id"] << " load " << load["load"]);
            CHECK(load["found"] == true);
            const double true_kg = load["true_kg"];
            CHECK(std::abs(load["net_kg"].get<double>() - true_kg) < std::max(0.01 * true_kg, 15.0));
        }
    }
}

TEST_CASE("The flow of the shipped day is at least three times as good as the best differencing") {
    for (const json& machine : score_of_shipped_day()) {
        INFO(machine["id"]);
        CHECK(machine["flow_over_best_differencing"].get<double>() > 0.0);
        CHECK(machine["flow_over_best_differencing"].get<double>() <= 1.0 / 3.0);
    }
}

TEST_CASE("The work states of the shipped day are right in 97 seconds of 100") {
    for (const json& machine : score_of_shipped_day()) {
        INFO(machine["id"]);
        CHECK(machine["states_right_pct"].get<double>() >= 97.0);
    }
}

TEST_CASE("The stated 90 per cent intervals hold the truth of the shipped day") {
    // Of thousands of seconds, correlated over minutes: 80 % is far below what chance gives an honest
    // interval.
    for (const json& machine : score_of_shipped_day()) {
        INFO(machine["id"]);
        CHECK(machine["flow_inside_90_pct"].get<double>() >= 80.0);
        CHECK(machine["mass_inside_90_pct"].get<double>() >= 80.0);
    }
}

TEST_CASE("A replay without estimates can't be scored and says so") {
    const TempFolder folder;
    const std::string day = (kDemo / "harrowmere").string();
    REQUIRE(run_podrate({"replay", day, "--out", (folder / "out").string(), "--quiet"}).exit_code == 0);
    const ProgramRun score = run_podrate({"score", (folder / "out").string(), day});
    CHECK(score.exit_code == 2);
    CHECK(score.err.find("--estimates") != std::string::npos);
}

TEST_CASE("The shipped day's fields gave what the truth says, and add up to the day") {
    struct Truth {
        double collected_kg = 0.0;
        double lost_kg = 0.0;
        double swept_m2 = 0.0;
    } truth[2];
    for (const char* id : {"viner_1", "viner_2", "viner_3"}) {
        std::istringstream lines(text_of(kDemo / "harrowmere" / "truth" / (std::string(id) + ".csv")));
        std::string line;
        std::getline(lines, line);
        REQUIRE(line.rfind("unix_s,mass_kg,flow_kgps,standing_kgpm2,loss_share,state,area_rate_m2ps,field,",
                           0) == 0);
        while (std::getline(lines, line)) {  // a row a second
            std::istringstream row(line);
            std::string cells[8];
            for (std::string& cell : cells) std::getline(row, cell, ',');
            const double area_m2 = std::stod(cells[6]);
            const double stood_kg = area_m2 * std::stod(cells[3]);
            Truth& field = truth[std::stoul(cells[7])];
            field.swept_m2 += area_m2;
            field.lost_kg += stood_kg * std::stod(cells[4]);
            field.collected_kg += stood_kg * (1.0 - std::stod(cells[4]));
        }
    }
    const fs::path out = replayed().out;
    const json summary = json::parse(text_of(out / "summary.json"));
    REQUIRE(summary["fields"].size() == 2);
    double sum_t = 0.0;
    for (std::size_t f = 0; f < 2; ++f) {
        const json& field = summary["fields"][f];
        INFO(field["name"]);
        CHECK(field["harvested_t"].get<double>() == Approx(truth[f].collected_kg / 1e3).epsilon(0.005));
        CHECK(field["area_ha"].get<double>() < 1.001 * truth[f].swept_m2 / 1e4);
        CHECK(field["area_ha"].get<double>() >
              0.97 * truth[f].swept_m2 / 1e4);  // 1.5 to 3 % of it are overlap
        const double lost_pct = 100.0 * truth[f].lost_kg / (truth[f].lost_kg + truth[f].collected_kg);
        CHECK(field["loss_pct_low"].get<double>() < lost_pct);
        CHECK(field["loss_pct_high"].get<double>() > lost_pct);
        CHECK(field["left_ha"].get<double>() ==
              Approx(field["field_area_ha"].get<double>() - field["area_ha"].get<double>()).margin(0.0002));
        sum_t += field["harvested_t"].get<double>();
    }
    CHECK(sum_t == Approx(summary["total"]["harvested_t"].get<double>()).margin(0.0011));
    const std::string table = text_of(out / "fields.csv");
    CHECK(table.rfind("field,field_ha,covered_ha,left_ha,", 0) == 0);
    CHECK(table.find("\nMill Dyke,") != std::string::npos);
    // What was cut green would yield more at a reading of 100, what was cut riper less.
    CHECK(summary["fields"][0]["tenderometer"].get<double>() == Approx(102.0).margin(2.0));
    CHECK(summary["fields"][0]["yield_adjusted_tpha"] < summary["fields"][0]["yield_tpha"]);
    CHECK(summary["fields"][1]["yield_adjusted_tpha"] > summary["fields"][1]["yield_tpha"]);
    CHECK(text_of(out / "report.html").find("<td>Larkrise Forty</td>") != std::string::npos);
}

TEST_CASE("The shipped day's map is right to 8 per cent in the median and as sure as it may be") {
    const json map = whole_score_of_shipped_day()["map"];
    INFO(map.dump(1));
    CHECK(map["cells"].get<long>() > 700);
    CHECK(map["yield_median_error_pct"].get<double>() < 8.0);
    CHECK(std::abs(map["yield_bias_pct"].get<double>()) < 1.0);
    CHECK(map["yield_inside_90_pct"].get<double>() > 85.0);
    CHECK(map["yield_inside_90_pct"].get<double>() < 95.0);
    CHECK(map["loss_median_error_kgpha"].get<double>() < 0.25 * map["true_loss_kgpha"].get<double>());
}
