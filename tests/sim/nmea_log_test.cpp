#include <catch2/catch.hpp>

#include "convert/convert.hpp"
#include "log/machine_log.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using sim::Column;

namespace {

struct Told {
    std::vector<sim::LogRow> rows;
    std::uint64_t rows_read = 0;
    std::uint64_t rows_bad = 0;
    sim::Problems problems;
};

Told read(const std::string& text) {
    const test::TempFolder folder;
    Told told;
    const auto log = sim::open_log(folder.file("receiver.nmea", text), {}, told.problems);
    const sim::SampleTaker take = [](const Sample& sample) { return check(sample); };
    sim::LogRow row;
    while (log->next(row)) {
        told.rows.push_back(row);
        log->feed(row, take);
    }
    told.rows_read = log->rows_read();
    told.rows_bad = log->rows_bad();
    return told;
}

std::string sentence(const std::string& body) {
    unsigned sum = 0;
    for (const char c : body) sum ^= static_cast<unsigned char>(c);
    char text[8];
    std::snprintf(text, sizeof text, "*%02X\r\n", sum);
    return "$" + body + text;
}

std::string rmc(const std::string& time, const std::string& date = "270625") {
    return sentence("GPRMC," + time + ",A,5236.000,N,00254.000,E,002.0,084.4," + date + ",,,A");
}

std::string gga(const std::string& time) {
    return sentence("GPGGA," + time + ",5236.006,N,00254.000,E,1,08,0.9,5.4,M,46.9,M,,");
}

constexpr TimeUs kNoon = 1751025600 * kSecondUs;  // 2025-06-27T12:00:00Z

}  // namespace

TEST_CASE("A receiver's sentences become rows with the receiver's time") {
    std::string text;
    for (int i = 0; i < 9; ++i)
        text += rmc("12000" + std::to_string(i)) + gga("12000" + std::to_string(i) + ".50");
    const Told told = read(text);
    CHECK(told.problems.count() == 0);
    CHECK(told.rows_read == 18);
    REQUIRE(told.rows.size() >= 27);
    CHECK(told.rows[0].time_us == kNoon);
    bool speed = false;
    bool heading = false;
    for (const sim::LogRow& row : told.rows) {
        speed = speed || row.holds(Column::speed_mps);
        heading = heading || row.holds(Column::heading_deg);
        if (row.holds(Column::speed_mps)) CHECK(row[Column::speed_mps] == Approx(2.0 * 1852.0 / 3600.0));
        if (row.holds(Column::heading_deg)) CHECK(row[Column::heading_deg] == Approx(84.4));
    }
    CHECK(speed);
    CHECK(heading);
    // GGA is the better one for the place: it takes over after some seconds.
    const auto placed = std::find_if(told.rows.begin(), told.rows.end(), [](const sim::LogRow& row) {
        return row.time_us == kNoon + 8 * kSecondUs + kSecondUs / 2 && row.holds(Column::lat_deg);
    });
    REQUIRE(placed != told.rows.end());
    CHECK((*placed)[Column::lat_deg] == Approx(52.6001).epsilon(1e-9));
    CHECK((*placed)[Column::lon_deg] == Approx(2.9).epsilon(1e-9));
}

TEST_CASE("The date changes at midnight, between one sentence and the next") {
    const Told told = read(rmc("235959") + gga("235959.50") + gga("000000") + rmc("000000.50", "280625"));
    CHECK(told.problems.count() == 0);
    CHECK(told.rows.back().time_us == kNoon + 12 * 3600 * kSecondUs + kSecondUs / 2);
}

TEST_CASE("Broken sentences and times that go back are told and skipped") {
    std::string broken = rmc("120001");
    broken[12] = '7';
    const Told told = read(rmc("120000") + broken + "garbage\n" + rmc("115959") + "\n" + rmc("120002"));
    CHECK(told.rows_read == 5);
    CHECK(told.rows_bad == 3);
    REQUIRE(told.problems.count() == 3);
    CHECK(told.problems.kept()[0].line == 2);
    CHECK(told.problems.kept()[0].reason.find("checksum") != std::string::npos);
    CHECK(told.problems.kept()[1].reason.find("no sentence") != std::string::npos);
    CHECK(told.problems.kept()[2].reason == "time goes back");
    CHECK(told.rows.back().time_us == kNoon + 2 * kSecondUs);
}

TEST_CASE("What stands before the first date is left out and told once") {
    const Told told = read(gga("115958") + gga("115959") + rmc("120000"));
    CHECK(told.problems.count() == 1);
    CHECK(told.problems.faults() == 0);
    CHECK(told.problems.kept()[0].reason.find("2 sentences") != std::string::npos);
    CHECK(told.rows.front().time_us == kNoon);
}

TEST_CASE("A receiver's text becomes CSV with place, speed and heading") {
    const test::TempFolder folder;
    sim::Problems problems;
    sim::convert_log(folder.file("r.nmea", rmc("120000") + rmc("120001")), folder / "r.csv", {}, problems,
                     {});
    CHECK(problems.count() == 0);
    const std::string text = test::text_of(folder / "r.csv");
    CHECK(text.substr(0, text.find('\n')) == "unix_s,speed_mps,lat_deg,lon_deg,heading_deg");
    CHECK(text.find("\n1751025600.000000,") != std::string::npos);
    CHECK(text.find("1.028889,52.6000000,2.9000000,84.4") != std::string::npos);
}
