#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/small_day.hpp"

using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::small_log;
using podrate::test::TempFolder;
using podrate::test::text_of;

TEST_CASE("A single log with its width is replayed") {
    const TempFolder folder;
    const std::string log = folder.file("alder.csv", small_log()).string();
    const std::string out = (folder / "out").string();
    const ProgramRun run = run_podrate({"replay", log, "--width", "3.3", "--out", out, "--json"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    const auto summary = nlohmann::json::parse(run.out);
    REQUIRE(summary["machines"].size() == 1);
    CHECK(summary["machines"][0]["id"] == "alder");
    CHECK(summary["machines"][0]["rows_read"] == 1200);
    // 0.8 m/s over 3.3 m for 599.5 s.
    CHECK(summary["machines"][0]["area_ha"].get<double>() == Approx(0.8 * 3.3 * 599.5 / 1e4).epsilon(0.002));
    for (const char* file :
         {"summary.json", "loads.csv", "stops.csv", "freshness.csv", "report.html", "handover.html"}) {
        CHECK(std::filesystem::exists(folder / "out" / file));
    }
    CHECK_FALSE(std::filesystem::exists(folder / "out" / "estimates_alder.csv"));
}

TEST_CASE("The width sets the area and not the harvest") {
    const TempFolder folder;
    const std::string log = folder.file("alder.csv", small_log()).string();
    double area_ha[2];
    double harvested_t[2];
    int i = 0;
    for (const std::string width : {"3.0", "6.0"}) {
        const ProgramRun run =
            run_podrate({"replay", log, "--width", width, "--out", (folder / width).string(), "--json"});
        REQUIRE(run.exit_code == 0);
        const auto machine = nlohmann::json::parse(run.out)["machines"][0];
        area_ha[i] = machine["area_ha"];
        harvested_t[i] = machine["harvested_t"];
        ++i;
    }
    CHECK(area_ha[1] == Approx(2.0 * area_ha[0]).epsilon(0.001));
    CHECK(harvested_t[1] == Approx(harvested_t[0]).epsilon(0.01));
}

TEST_CASE("A single log without its width is refused with the mend") {
    const TempFolder folder;
    const std::string log = folder.file("alder.csv", small_log()).string();
    const ProgramRun run = run_podrate({"replay", log, "--out", (folder / "out").string()});
    CHECK(run.exit_code == 2);
    CHECK(run.err.find("--width 3.3") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(folder / "out"));
}

TEST_CASE("A log that can't be used at all exits with 2 and names file and line and mend") {
    const TempFolder folder;
    const struct {
        const char* text;
        const char* told;
    } logs[] = {
        {"", "alder.csv: is empty"},
        {"unix_s,hopper_kg\n", "holds no row with a time and a weight"},
        {"time_s,hopper_kg\n1,2\n", "alder.csv:1: has no column unix_s"},
        {"unix_s,speed_mps\n1,2\n", "alder.csv:1: has no weight column"},
        {"unix_s,hopper_kg\nx,y\n", "holds no row with a time and a weight"},
        {"unix_s,hopper_kg\n5,\n6,\n", "holds no row with a time and a weight"},
    };
    for (const auto& log : logs) {
        const std::string path = folder.file("alder.csv", log.text).string();
        const ProgramRun run =
            run_podrate({"replay", path, "--width", "3.3", "--out", (folder / "out").string()});
        INFO(run.err);
        CHECK(run.exit_code == 2);
        CHECK(run.err.find(log.told) != std::string::npos);
        CHECK(run.err.find("; ") != std::string::npos);
        CHECK(run.out.empty());
    }
}

TEST_CASE("Bad rows exit with 1 and the rest is used") {
    const TempFolder folder;
    std::string text = small_log();
    text.insert(text.find('\n', 3000) + 1, "garbage\n,,,\n1751032999,1,nan,1\n");
    const std::string log = folder.file("alder.csv", text).string();
    const std::string out = (folder / "out").string();
    const ProgramRun run =
        run_podrate({"replay", log, "--width", "3.3", "--out", out, "--json", "--estimates"});
    INFO(run.err);
    CHECK(run.exit_code == 1);
    const auto machine = nlohmann::json::parse(run.out)["machines"][0];
    CHECK(machine["rows_read"] == 1203);
    CHECK(machine["rows_bad"] == 3);
    CHECK(machine["problems_count"] == 3);
    CHECK(machine["problems"][0]["reason"] == "row has 1 cells instead of 4");
    const std::string estimates = text_of(folder / "out" / "estimates_alder.csv");
    CHECK(std::count(estimates.begin(), estimates.end(), '\n') == 1 + 1200);
    CHECK(run.err.find("alder.csv:") != std::string::npos);
}

TEST_CASE("An unknown column alone exits with 0") {
    const TempFolder folder;
    std::string text = "unix_s,hopper_kg,oil_temp_c\n";
    for (int i = 0; i < 100; ++i) text += std::to_string(1000 + i) + ",5,80\n";
    const std::string log = folder.file("alder.csv", text).string();
    const ProgramRun run = run_podrate({"replay", log, "--width", "3.3", "--out", (folder / "out").string()});
    CHECK(run.exit_code == 0);
    CHECK(run.err.find("oil_temp_c") != std::string::npos);
}
