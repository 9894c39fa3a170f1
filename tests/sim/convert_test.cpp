#include <catch2/catch.hpp>

#include "convert/convert.hpp"
#include "sim/read_log.hpp"

using namespace podrate;
using sim::Column;

namespace {

const std::filesystem::path kDay = PODRATE_SOURCE_DIR "/demo_logs/harrowmere";

// The finest step of each message, in the column's unit; angles are told in 1e-4 rad.
double step_of(Column column) {
    switch (column) {
        case Column::speed_mps:
        case Column::hopper_kg:
        case Column::cell1_kg:
        case Column::cell2_kg: return 1e-3;
        case Column::pitch_deg:
        case Column::roll_deg:
        case Column::heading_deg: return 1e-4 * 57.29577951308232;
        case Column::lat_deg:
        case Column::lon_deg: return 1e-7;
        case Column::drum_rpm: return 0.125;
        default: return 0.0;
    }
}

sim::Problems convert(const std::filesystem::path& from, const std::filesystem::path& to) {
    sim::Problems problems;
    sim::convert_log(from, to, {}, problems, {});
    return problems;
}

// The first rows of a shipped log, as CSV text.
std::string first_rows(const std::string& name, int rows) {
    sim::LineReader lines(sim::open_bytes(kDay / name));
    std::string text;
    sim::Line line;
    for (int i = 0; i <= rows && lines.next(line); ++i) text += std::string(line.text) + "\n";
    return text;
}

void require_same(const test::ReadLog& a, const test::ReadLog& b) {
    REQUIRE(a.rows.size() == b.rows.size());
    for (std::size_t i = 0; i < a.rows.size(); ++i) {
        REQUIRE(a.rows[i].time_us == b.rows[i].time_us);
        for (int c = 1; c < sim::kColumns; ++c) {
            const auto column = static_cast<Column>(c);
            INFO("row " << i << ", " << sim::name_of(column));
            REQUIRE(a.rows[i].holds(column) == b.rows[i].holds(column));
            if (!a.rows[i].holds(column)) continue;
            // Values are single precision on their way.
            const double rounding = 2.0 * 6e-8 * std::abs(a.rows[i][column]);
            REQUIRE(std::abs(a.rows[i][column] - b.rows[i][column]) <= 0.5 * step_of(column) + rounding);
        }
    }
}

}  // namespace

TEST_CASE("A shipped log becomes candump text and CSV again, row by row, within the messages' resolution") {
    const test::TempFolder folder;
    const std::string name = GENERATE(as<std::string>(), "viner_1.csv.zst", "viner_2.csv.zst");
    const auto csv = folder.file("viner.csv", first_rows(name, 20000));
    CHECK(convert(csv, folder / "viner.log").count() == 0);
    CHECK(convert(folder / "viner.log", folder / "again.csv").count() == 0);
    require_same(test::read_log_file(csv), test::read_log_file(folder / "again.csv"));
    // What has been through the messages once passes them unchanged.
    CHECK(convert(folder / "again.csv", folder / "again.log").count() == 0);
    CHECK(test::text_of(folder / "viner.log") == test::text_of(folder / "again.log"));
}

TEST_CASE("Cells, drum and compressed files go both ways") {
    const test::TempFolder folder;
    std::string text = "unix_s,drum_rpm,cell1_kg,cell2_kg\n";
    for (int i = 0; i < 100; ++i)
        text += std::to_string(1751032800 + i) + ".5,24.25," + std::to_string(100 + i) + ".5,200.125\n";
    const auto csv = folder.file("viner.csv", text);
    CHECK(convert(csv, folder / "viner.log.zst").count() == 0);
    CHECK(convert(folder / "viner.log.zst", folder / "again.csv.zst").count() == 0);
    const test::ReadLog again = test::read_log_file(folder / "again.csv.zst");
    // How many cells there are is learnt in the first second: its weight is not used.
    REQUIRE(again.rows.size() == 100);
    CHECK(again.rows.back()[Column::cell1_kg] == 199.5);
    CHECK(again.rows.back()[Column::cell2_kg] == 200.125);
    CHECK(again.rows.back()[Column::drum_rpm] == 24.25);
    CHECK(again.rows[50].time_us == 1751032850500000);
}

TEST_CASE("Messages of one moment share a row only where they are fed in that order again") {
    const test::TempFolder folder;
    // Weight first, then speed, both in the same microsecond: two rows.
    const auto log = folder.file("viner.log",
                                 "(1751032800.000000) can0 0CCBFF80#03004B0000010000\n"
                                 "(1751032800.000000) can0 0CFE4980#0000FFFFFFFFFFFD\n"
                                 "(1751032801.000000) can0 0CFE4980#0000FFFFFFFFFFFD\n"
                                 "(1751032801.000000) can0 0CCBFF80#03004B0000010000\n");
    convert(log, folder / "viner.csv");
    CHECK(test::text_of(folder / "viner.csv") ==
          "unix_s,speed_mps,hopper_kg\n"
          "1751032800.000000,,0.256\n"
          "1751032800.000000,0,\n"
          "1751032801.000000,0,0.256\n");
}

TEST_CASE("Values that no message may carry are left out and told") {
    const test::TempFolder folder;
    const auto csv = folder.file("viner.csv", "unix_s,speed_mps,hopper_kg\n1,99,5\n2,1,6\nx,1,7\n");
    const sim::Problems problems = convert(csv, folder / "viner.log");
    CHECK(problems.faults() == 2);
    const std::string text = test::text_of(folder / "viner.log");
    CHECK(std::count(text.begin(), text.end(), '\n') == 3);
}

TEST_CASE("What can't be converted is refused and leaves no file") {
    const test::TempFolder folder;
    const auto csv = folder.file("viner.csv", "unix_s,hopper_kg\n1,2\n");
    const auto log = folder.file("nobody.log", "(1751032801.000000) can0 123#0102030405060708\n");
    for (const auto& [from, to] :
         {std::pair{csv, folder / "a.csv"}, std::pair{log, folder / "a.log"},
          std::pair{csv, folder / "a.txt"}, std::pair{folder / "no.csv", folder / "a.log"},
          std::pair{log, folder / "a.csv"}, std::pair{folder / "no.log", folder / "a.csv"}}) {
        INFO(from << " to " << to);
        sim::Problems problems;
        CHECK_THROWS_AS(sim::convert_log(from, to, {}, problems, {}), sim::RefusedInput);
        CHECK_FALSE(std::filesystem::exists(to));
    }
}

TEST_CASE("An interface that is not in the log is named, with those that are") {
    const test::TempFolder folder;
    const auto log = folder.file("viner.log", "(1751032801.000000) can0 0CFE4980#0000FFFFFFFFFFFD\n");
    sim::BusChoice bus;
    bus.interface = "can7";
    sim::Problems problems;
    CHECK_THROWS_WITH(sim::convert_log(log, folder / "a.csv", bus, problems, {}),
                      Catch::Contains("holds no frame of can7 but of can0"));
}
