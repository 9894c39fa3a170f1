#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/program.hpp"
#include "support/small_day.hpp"

using nlohmann::json;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;
using podrate::test::text_of;

TEST_CASE("What replay writes has the fields of the interface") {
    const TempFolder folder;
    podrate::test::write_small_day(folder);
    const ProgramRun run = run_podrate(
        {"replay", folder.path().string(), "--out", (folder / "out").string(), "--estimates", "--quiet"});
    REQUIRE(run.exit_code == 0);
    CHECK(run.out.empty());
    const json summary = json::parse(text_of(folder / "out" / "summary.json"));
    for (const char* key : {"podrate", "day", "machines", "fields", "total"}) CHECK(summary.contains(key));
    for (const char* key : {"id",
                            "rows_read",
                            "rows_bad",
                            "harvested_t",
                            "harvested_sd_t",
                            "area_ha",
                            "yield_tpha",
                            "load_rate_tph_mean",
                            "loss_pct_mean",
                            "loss_pct_low",
                            "loss_pct_high",
                            "loads",
                            "seconds_by_state",
                            "alarms",
                            "lost_t",
                            "drum_loss_pct_mean",
                            "drum_loss_pct_low",
                            "drum_loss_pct_high",
                            "picking_loss_pct_mean",
                            "picking_loss_pct_low",
                            "picking_loss_pct_high",
                            "alarms_by_kind",
                            "pauses",
                            "tray_checks",
                            "loss_sensor"}) {
        INFO(key);
        CHECK(summary["machines"][0].contains(key));
    }
    for (const char* key : {"harvested_t", "area_ha", "yield_tpha", "planned_t", "shortfall_t"}) {
        INFO(key);
        CHECK(summary["total"].contains(key));
    }
    const std::string loads = text_of(folder / "out" / "loads.csv");
    CHECK(loads.substr(0, loads.find('\n')) ==
          "machine,load,start_unix_s,end_unix_s,lat_deg,lon_deg,net_kg,net_sd_kg,area_ha,yield_tpha,loss_pct,"
          "oldest_pea_min");
    const std::string estimates = text_of(folder / "out" / "estimates_alder.csv");
    CHECK(estimates.substr(0, estimates.find('\n')) ==
          "unix_s,mass_kg,mass_sd_kg,flow_kgps,flow_sd_kgps,yield_kgpm2,loss_share,loss_low,loss_high,state,"
          "alarms");
}

TEST_CASE("Printed JSON is the summary file byte for byte") {
    const TempFolder folder;
    podrate::test::write_small_day(folder);
    const ProgramRun run = run_podrate(
        {"replay", folder.path().string(), "--out", (folder / "out").string(), "--json", "--quiet"});
    CHECK(run.out == text_of(folder / "out" / "summary.json"));
}

TEST_CASE("The loss interval is ordered and never empty") {
    const TempFolder folder;
    podrate::test::write_small_day(folder);
    const ProgramRun run = run_podrate(
        {"replay", folder.path().string(), "--out", (folder / "out").string(), "--estimates", "--quiet"});
    REQUIRE(run.exit_code == 0);
    std::istringstream lines(text_of(folder / "out" / "estimates_birch.csv"));
    std::string line;
    std::getline(lines, line);
    while (std::getline(lines, line)) {
        std::istringstream cells(line);
        std::string cell;
        double value[9] = {};
        for (double& v : value) {
            std::getline(cells, cell, ',');
            v = std::stod(cell);
        }
        INFO(line);
        REQUIRE(value[7] >= 0.0);
        REQUIRE(value[7] <= value[6]);
        REQUIRE(value[6] <= value[8]);
        REQUIRE(value[8] <= 1.0);
        REQUIRE(value[7] < value[8]);
        REQUIRE(value[2] > 0.0);
    }
}

TEST_CASE("Replaying into a folder again leaves nothing half written") {
    const TempFolder folder;
    podrate::test::write_small_day(folder);
    for (int i = 0; i < 2; ++i) {
        REQUIRE(run_podrate({"replay", folder.path().string(), "--out", (folder / "out").string(), "--quiet"})
                    .exit_code == 0);
    }
    for (const auto& entry : std::filesystem::directory_iterator(folder / "out")) {
        CHECK(entry.path().extension() != ".part");
    }
}
