#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/small_day.hpp"

using nlohmann::json;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;
using podrate::test::write_small_day;
using podrate::test::write_text;

namespace {

ProgramRun replay(const TempFolder& folder) {
    return run_podrate({"replay", folder.path().string(), "--out", (folder / "out").string(), "--json"});
}

}  // namespace

TEST_CASE("A whole day exits with 0 and adds its machines up") {
    const TempFolder folder;
    write_small_day(folder);
    const ProgramRun run = replay(folder);
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(run.err.empty());
    const json summary = json::parse(run.out);
    REQUIRE(summary["machines"].size() == 3);
    double harvested_t = 0.0;
    double area_ha = 0.0;
    for (const json& machine : summary["machines"]) {
        harvested_t += machine["harvested_t"].get<double>();
        area_ha += machine["area_ha"].get<double>();
    }
    // Each figure is rounded to a tenth of a kilogram or square metre.
    CHECK(summary["total"]["harvested_t"].get<double>() == Approx(harvested_t).margin(3e-4));
    CHECK(summary["total"]["area_ha"].get<double>() == Approx(area_ha).margin(3e-4));
    CHECK(summary["total"]["planned_t"].is_null());
}

TEST_CASE("One broken log of three exits with 1 and the other two are used") {
    const TempFolder folder;
    write_small_day(folder);
    const ProgramRun whole = replay(folder);
    const json before = json::parse(whole.out);
    for (const char* broken : {"", "not,a,log\n1,2,3\n", "unix_s,hopper_kg\n"}) {
        write_text(folder / "birch.csv", broken);
        const ProgramRun run = replay(folder);
        INFO(run.err);
        CHECK(run.exit_code == 1);
        CHECK(run.err.find("birch.csv") != std::string::npos);
        const json after = json::parse(run.out);
        REQUIRE(after["machines"].size() == 3);
        CHECK(after["machines"][0] == before["machines"][0]);
        CHECK(after["machines"][2] == before["machines"][2]);
        CHECK(after["machines"][1].contains("refused"));
        CHECK_FALSE(after["machines"][0].contains("refused"));
    }
}

TEST_CASE("A missing log exits with 1 and all logs missing with 2") {
    const TempFolder folder;
    write_small_day(folder);
    std::filesystem::remove(folder / "cedar.csv");
    CHECK(replay(folder).exit_code == 1);
    std::filesystem::remove(folder / "alder.csv");
    std::filesystem::remove(folder / "birch.csv");
    const ProgramRun run = replay(folder);
    CHECK(run.exit_code == 2);
    CHECK(run.out.empty());
    CHECK(run.err.find("alder.csv") != std::string::npos);
}

TEST_CASE("A bad row in a small file exits with 1 and names it") {
    const TempFolder folder;
    write_small_day(folder);
    write_text(folder / "intake_plan.csv",
               "unix_s,planned_t\n1751032800,0\n1751036400,much\n1751040000,10\n");
    const ProgramRun run = replay(folder);
    CHECK(run.exit_code == 1);
    CHECK(run.err.find("intake_plan.csv:3: planned_t is 'much', not a number") != std::string::npos);
    CHECK(json::parse(run.out)["total"]["planned_t"].is_number());
}

TEST_CASE("A wrong day.toml exits with 2 and names file and line") {
    const TempFolder folder;
    write_small_day(folder);
    write_text(folder / "day.toml",
               "label = \"x\"\n[[machine]]\nid = \"alder\"\nlog = \"alder.csv\"\nwidth_m = 99\n");
    const ProgramRun run = replay(folder);
    CHECK(run.exit_code == 2);
    CHECK(run.err.find("day.toml:5") != std::string::npos);
    CHECK(run.err.find("width_m") != std::string::npos);
    CHECK(run.err.find("0.5 to 12") != std::string::npos);
}

TEST_CASE("Text that is no UTF-8 in a day still gives JSON that parses") {
    const TempFolder folder;
    write_small_day(folder);
    write_text(folder / "birch.csv", "unix_s,hopper_kg,\xFF\xFE\n1,\xC3(,1\n2,3,4\n");
    const ProgramRun run = replay(folder);
    CHECK(run.exit_code == 1);
    CHECK_NOTHROW(json::parse(run.out));
}
