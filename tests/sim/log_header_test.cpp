#include <catch2/catch.hpp>

#include "sim/read_log.hpp"

using namespace podrate;
using sim::Column;
using test::read_log;
using test::refusal_of;

TEST_CASE("A log without unix_s is refused with file and line and mend") {
    const sim::Problem problem = refusal_of("time,hopper_kg\n1,2\n");
    CHECK(problem.file.find("viner.csv") != std::string::npos);
    CHECK(problem.line == 1);
    CHECK(problem.reason == "has no column unix_s");
    CHECK(problem.mend.find("seconds since 1970") != std::string::npos);
}

TEST_CASE("A log without any weight column is refused with a mend") {
    const sim::Problem problem = refusal_of("\nunix_s,speed_mps\n1,2\n");
    CHECK(problem.line == 2);
    CHECK(problem.reason == "has no weight column");
    CHECK(problem.mend.find("hopper_kg") != std::string::npos);
    CHECK(problem.mend.find("cell1_kg") != std::string::npos);
}

TEST_CASE("One weight cell is a weight column") {
    for (const std::string cell : {"cell1_kg", "cell2_kg", "cell3_kg", "cell4_kg", "hopper_kg"}) {
        CHECK(read_log("unix_s," + cell + "\n1,2\n").rows.size() == 1);
    }
}

TEST_CASE("A column that stands twice is refused by its name") {
    const sim::Problem problem = refusal_of("unix_s,hopper_kg,speed_mps,hopper_kg\n1,2,3,4\n");
    CHECK(problem.reason == "column 'hopper_kg' stands twice");
    CHECK(problem.line == 1);
    CHECK_FALSE(problem.mend.empty());
}

TEST_CASE("An empty log is refused") {
    for (const std::string text : {"", "\n\n", "\xEF\xBB\xBF", "\r\n"}) {
        const sim::Problem problem = refusal_of(text);
        CHECK(problem.reason == "is empty");
        CHECK_FALSE(problem.mend.empty());
    }
}

TEST_CASE("A log with another separator is refused by its name") {
    CHECK(refusal_of("unix_s;hopper_kg\n1;2\n").reason == "cells seem to be separated by ';'");
    CHECK(refusal_of("unix_s\thopper_kg\n1\t2\n").reason == "cells seem to be separated by tabs");
    CHECK(refusal_of("unix_s,hopper_kg\r1,2\r3,4\r").reason.find("separated by carriage returns") !=
          std::string::npos);
    CHECK(refusal_of("unix_s;hopper_kg\n1;2\n").mend.find("commas") != std::string::npos);
}

TEST_CASE("A header of NUL bytes or with an open quote is refused") {
    CHECK(refusal_of(std::string(512, '\0')).reason.find("NUL") != std::string::npos);
    CHECK(refusal_of("unix_s,\"hopper_kg\n1,2\n").reason.find("quote") != std::string::npos);
    CHECK(refusal_of(std::string(2000000, 'x')).reason.find("1 MiB") != std::string::npos);
}

TEST_CASE("A log with its header only holds no rows and no faults") {
    const test::ReadLog log = read_log("unix_s,hopper_kg\n");
    CHECK(log.rows.empty());
    CHECK(log.rows_read == 0);
    CHECK(log.problems.count() == 0);
}

TEST_CASE("Columns may stand in any order") {
    const test::ReadLog log = read_log("hopper_kg,reel_on,lat_deg,unix_s,lon_deg\n2.5,1,52.6,100.25,2.9\n");
    REQUIRE(log.rows.size() == 1);
    const sim::LogRow& row = log.rows.front();
    CHECK(row.time_us == 100250000);
    CHECK(row[Column::hopper_kg] == 2.5);
    CHECK(row[Column::reel_on] == 1.0);
    CHECK(row[Column::lat_deg] == 52.6);
    CHECK(row[Column::lon_deg] == 2.9);
    CHECK_FALSE(row.holds(Column::speed_mps));
}

TEST_CASE("Each column of the interface is known by its name") {
    // The names of the log's columns, as the interface fixes them.
    const std::vector<std::string> names = {"unix_s",   "speed_mps",   "hopper_kg", "cell1_kg", "cell2_kg",
                                            "cell3_kg", "cell4_kg",    "pitch_deg", "roll_deg", "lat_deg",
                                            "lon_deg",  "heading_deg", "reel_on",   "drum_rpm", "loss_hits"};
    std::string header;
    std::string cells;
    for (std::size_t i = 0; i < names.size(); ++i) {
        header += (i == 0 ? "" : ",") + names[i];
        cells += (i == 0 ? "" : ",") + std::to_string(i + 1);
    }
    const test::ReadLog log = read_log(header + "\n" + cells + "\n");
    CHECK(log.problems.count() == 0);
    REQUIRE(log.rows.size() == 1);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto column = static_cast<Column>(i);
        CHECK(names[i] == sim::name_of(column));
        CHECK(log.rows.front()[column] == static_cast<double>(i + 1));
    }
}

TEST_CASE("An unknown column is noted once and is no fault") {
    std::string text = "unix_s,oil_temp_c,hopper_kg\n";
    for (int i = 0; i < 50; ++i) text += std::to_string(i) + ",warm,5\n";
    const test::ReadLog log = read_log(text);
    CHECK(log.rows.size() == 50);
    CHECK(log.rows_bad == 0);
    CHECK(log.problems.count() == 1);
    CHECK(log.problems.faults() == 0);
    CHECK(log.problems.kept().front().reason == "unknown column 'oil_temp_c' passed over");
    CHECK(log.problems.kept().front().note);
}

TEST_CASE("Column names may be quoted and have blanks around them") {
    const test::ReadLog log = read_log("\"unix_s\", hopper_kg \n\"1\", 2.5 \n");
    REQUIRE(log.rows.size() == 1);
    CHECK(log.rows.front()[Column::hopper_kg] == 2.5);
}

TEST_CASE("A missing log and a folder in its place are refused with a mend") {
    const test::TempFolder folder;
    sim::Problems problems;
    try {
        const sim::LogReader reader(folder / "absent.csv", problems);
        FAIL("taken");
    } catch (const sim::RefusedInput& refused) {
        CHECK(std::string(refused.what()).find("absent.csv") != std::string::npos);
        CHECK_FALSE(refused.problem().mend.empty());
    }
    CHECK_THROWS_AS(sim::LogReader(folder.path(), problems), sim::RefusedInput);
}
