// A power loss cuts a log anywhere.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <sstream>

#include "sim/read_log.hpp"

using namespace podrate;
using sim::Column;

namespace {

bool is_number_or_empty(const std::string& cell) {
    if (cell.empty()) return true;
    char* end = nullptr;
    (void)std::strtod(cell.c_str(), &end);
    return *end == '\0';
}

// Rows of the text with all their cells, each of them a number: worked out the plain way.
std::size_t whole_rows(const std::string& text, std::size_t columns) {
    std::istringstream lines(text);
    std::string line;
    std::getline(lines, line);
    std::size_t rows = 0;
    while (std::getline(lines, line)) {
        std::istringstream cells(line + ',');
        std::string cell;
        std::size_t count = 0;
        bool good = true;
        bool timed = false;
        while (std::getline(cells, cell, ',')) {
            good = good && is_number_or_empty(cell);
            if (count == 0) timed = !cell.empty();
            ++count;
        }
        if (good && timed && count == columns) ++rows;
    }
    return rows;
}

void check_every_cut(const std::string& whole, std::size_t columns) {
    const std::size_t header = whole.find('\n');
    const test::ReadLog full = test::read_log(whole);
    REQUIRE(full.problems.count() == 0);
    for (std::size_t cut = header; cut <= whole.size(); ++cut) {
        INFO("cut after " << cut << " bytes");
        const std::string text = whole.substr(0, cut);
        const test::ReadLog log = test::read_log(text);
        REQUIRE(log.rows.size() == whole_rows(text, columns));
        REQUIRE(log.rows.size() + log.rows_bad == log.rows_read);
        REQUIRE(log.problems.faults() == log.rows_bad);
        // All but the row that the cut is in are as they were.
        for (std::size_t i = 0; i + 1 < log.rows.size(); ++i) {
            REQUIRE(log.rows[i].time_us == full.rows[i].time_us);
            REQUIRE(log.rows[i][Column::hopper_kg] == full.rows[i][Column::hopper_kg]);
        }
    }
}

}  // namespace

TEST_CASE("A log cut at any byte gives all rows that are whole") {
    check_every_cut(
        "unix_s,speed_mps,hopper_kg,reel_on\n"
        "1751032800.0,0.82,-12.5,1\n1751032800.1,,-11.0,\n1751032800.2,0.83,-10.5,0\n",
        4);
}

TEST_CASE("A log that ends in its weight cut at any byte gives all rows that are whole") {
    check_every_cut("unix_s,hopper_kg\n1.0,-12.5\n1.1,1042.0\n1.2,-0.5\n1.3,7\n", 2);
}

TEST_CASE("A log cut in its header is refused or has the columns it shows") {
    const std::string header = "unix_s,hopper_kg,speed_mps\n";
    for (std::size_t cut = 0; cut + 1 < header.size(); ++cut) {
        INFO("cut after " << cut << " bytes");
        const std::string text = header.substr(0, cut);
        if (text.find("hopper_kg") == std::string::npos) {
            CHECK_THROWS_AS(test::read_log(text), sim::RefusedInput);
        } else {
            CHECK_NOTHROW(test::read_log(text));
        }
    }
}
