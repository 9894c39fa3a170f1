// The shipped half hour of a machine's bus against the same half hour of its CSV log.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

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
constexpr long kRows = 18000;  // half an hour at 10 Hz

// A day of that machine with the bus day's parameters and another log.
void write_toml(const fs::path& day, const std::string& log) {
    std::string toml = text_of(kDemo / "harrowmere_bus/day.toml");
    toml.replace(toml.find("viner_2.log.zst"), 15, log);
    podrate::test::write_text(day / "day.toml", toml);
}

// The first half hour of Harrowmere's viner_2, once through the messages and back.
void write_csv_day(const TempFolder& folder) {
    REQUIRE(run_podrate(
                {"convert", (kDemo / "harrowmere/viner_2.csv.zst").string(), (folder / "whole.log").string()})
                .exit_code == 0);
    REQUIRE(run_podrate({"convert", (folder / "whole.log").string(), (folder / "whole.csv").string()})
                .exit_code == 0);
    const std::string whole = text_of(folder / "whole.csv");
    std::size_t end = 0;
    for (long i = 0; i <= kRows; ++i) end = whole.find('\n', end) + 1;
    fs::create_directory(folder / "day");
    podrate::test::write_text(folder / "day" / "viner_2.csv", whole.substr(0, end));
    write_toml(folder / "day", "viner_2.csv");
}

json replay(const fs::path& day, const fs::path& out) {
    const ProgramRun run =
        run_podrate({"replay", day.string(), "--out", out.string(), "--estimates", "--json"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(run.err.empty());
    return json::parse(run.out)["machines"][0];
}

}  // namespace

TEST_CASE("The shipped bus is what convert makes of the shipped log, and gives what its CSV gives") {
    const TempFolder folder;
    write_csv_day(folder);
    const std::string made = (folder / "made.csv").string();
    REQUIRE(run_podrate({"convert", (kDemo / "harrowmere_bus/viner_2.log.zst").string(), made}).exit_code ==
            0);
    CHECK(text_of(made) == text_of(folder / "day" / "viner_2.csv"));
    const json bus = replay(kDemo / "harrowmere_bus", folder / "bus_out");
    const json csv = replay(folder / "day", folder / "csv_out");
    CHECK(bus["rows_bad"] == 0);
    CHECK(bus["problems_count"] == 0);
    CHECK(bus["loss_sensor"] == true);
    // Equal to the last digit shown: the CSV log has been through the same messages.
    for (const char* key :
         {"harvested_t", "harvested_sd_t", "area_ha", "yield_tpha", "load_rate_tph_mean", "loss_pct_mean",
          "loss_pct_low", "loss_pct_high", "loads", "seconds_by_state", "alarms"}) {
        INFO(key);
        CHECK(bus[key] == csv[key]);
    }
    CHECK(bus["loads"] == 1);
    // A row for each weight: the same times, the same estimates.
    const std::string estimates = text_of(folder / "bus_out" / "estimates_viner_2.csv");
    CHECK(std::count(estimates.begin(), estimates.end(), '\n') == 1 + kRows);
    CHECK(estimates == text_of(folder / "csv_out" / "estimates_viner_2.csv"));
}

TEST_CASE("The shipped bus agrees with the log that it was made from") {
    const TempFolder folder;
    fs::create_directory(folder / "day");
    fs::copy_file(kDemo / "harrowmere/viner_2.csv.zst", folder / "day/viner_2.csv.zst");
    write_toml(folder / "day", "viner_2.csv.zst");
    const json bus = replay(kDemo / "harrowmere_bus", folder / "bus_out");
    replay(folder / "day", folder / "out");
    // The estimates of the whole day at the bus's last moment: mass within the resolution of its messages.
    const std::string last = "1751034599.900,";
    const auto mass_at = [&](const fs::path& file) {
        const std::string text = text_of(file);
        const std::size_t at = text.find("\n" + last);
        REQUIRE(at != std::string::npos);
        return std::stod(text.substr(at + 1 + last.size()));
    };
    CHECK(mass_at(folder / "bus_out" / "estimates_viner_2.csv") ==
          Approx(mass_at(folder / "out" / "estimates_viner_2.csv")).margin(0.1));
    const std::string loads = text_of(folder / "out" / "loads.csv");
    const std::string bus_loads = text_of(folder / "bus_out" / "loads.csv");
    // The same first load, tipped at the same moment at the same place; net within 0.1 kg.
    const auto cells = [](const std::string& text) {
        const std::size_t at = text.find("viner_2,1,");
        std::vector<std::string> list;
        std::size_t from = at;
        for (std::size_t i = 0; i < 7; ++i) {
            const std::size_t comma = text.find(',', from);
            list.push_back(text.substr(from, comma - from));
            from = comma + 1;
        }
        return list;
    };
    const auto first = cells(loads);
    const auto bus_first = cells(bus_loads);
    for (std::size_t i = 2; i < 6; ++i) CHECK(first[i] == bus_first[i]);
    CHECK(std::stod(bus_first[6]) == Approx(std::stod(first[6])).margin(0.1));
    CHECK(bus["area_ha"].get<double>() > 0.4);
}

TEST_CASE("A single candump log is replayed with its width") {
    const TempFolder folder;
    const ProgramRun run = run_podrate({"replay", (kDemo / "harrowmere_bus/viner_2.log.zst").string(),
                                        "--width", "3.3", "--out", (folder / "out").string(), "--json"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(json::parse(run.out)["machines"][0]["id"] == "viner_2");
    CHECK(json::parse(run.out)["machines"][0]["area_ha"].get<double>() == Approx(0.43).margin(0.02));
}

TEST_CASE("A log that is no candump text exits with 2 and says how to record one") {
    const TempFolder folder;
    const std::string log = folder.file("viner.log", "unix_s,hopper_kg\n1,2\n").string();
    const ProgramRun run = run_podrate({"replay", log, "--width", "3.3", "--out", (folder / "out").string()});
    CHECK(run.exit_code == 2);
    CHECK(run.err.find("candump -l") != std::string::npos);
}
