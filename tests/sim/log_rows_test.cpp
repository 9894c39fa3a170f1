#include <catch2/catch.hpp>

#include "sim/read_log.hpp"

using namespace podrate;
using sim::Column;
using test::read_log;

namespace {

struct BadRow {
    const char* name;
    std::string row;
    std::string reason;
};

const std::string kHeader = "unix_s,hopper_kg,speed_mps\n";

}  // namespace

TEST_CASE("Each kind of bad row is counted and told with its line and skipped") {
    const BadRow kinds[] = {
        {"too few cells", "3,5", "row has 2 cells instead of 3"},
        {"too many cells", "3,5,1,1", "row has 4 cells instead of 3"},
        {"one cell", "3", "row has 1 cells instead of 3"},
        {"text for a number", "3,heavy,1", "hopper_kg is 'heavy', not a number"},
        {"a decimal comma in quotes", "3,\"5,5\",1", "hopper_kg is '5,5', not a number"},
        {"number with a unit", "3,5kg,1", "hopper_kg is '5kg', not a number"},
        {"not a number", "3,nan,1", "hopper_kg is 'nan', not finite"},
        {"infinite", "3,5,inf", "speed_mps is 'inf', not finite"},
        {"a time that is no number", "noon,5,1", "unix_s is 'noon', not a number"},
        {"no time", ",5,1", "row has no time"},
        {"milliseconds", "1751032800123,5,1", "unix_s 1751032800123.000 is outside 0 to 9999999999"},
        {"before 1970", "-5,5,1", "unix_s -5.000 is outside 0 to 9999999999"},
        {"time going back", "1.5,5,1", "time goes back by 0.500 s"},
        {"NUL bytes", std::string("3,") + '\0' + ",1", "holds NUL bytes"},
        {"text after a quote", "3,\"5\"x,1", "text follows a closing quote"},
        {"an open quote", "3,\"5,1", "a quote is opened and never closed"},
        {"over 1 MiB", "3," + std::string(1100000, '5') + ",1", "longer than 1 MiB"},
    };
    for (const BadRow& kind : kinds) {
        INFO(kind.name);
        const test::ReadLog log = read_log(kHeader + "1,5,1\n2,5,1\n" + kind.row + "\n4,5,1\n5,5,1\n");
        CHECK(log.rows.size() == 4);
        CHECK(log.rows_read == 5);
        CHECK(log.rows_bad == 1);
        REQUIRE(log.problems.count() == 1);
        CHECK(log.problems.faults() == 1);
        const sim::Problem& problem = log.problems.kept().front();
        CHECK(problem.line == 4);
        CHECK_THAT(problem.reason, Catch::Matchers::Contains(kind.reason));
        CHECK(problem.mend.find("row skipped") != std::string::npos);
        CHECK(problem.file.find("viner.csv") != std::string::npos);
    }
}

TEST_CASE("An empty cell is no sample and no fault") {
    const test::ReadLog log = read_log(kHeader + "1,,1\n2,5,\n3,,\n4, ,\t\n");
    REQUIRE(log.rows.size() == 4);
    CHECK(log.problems.count() == 0);
    CHECK_FALSE(log.rows[0].holds(Column::hopper_kg));
    CHECK(log.rows[0].holds(Column::speed_mps));
    CHECK(log.rows[1].holds(Column::hopper_kg));
    CHECK_FALSE(log.rows[1].holds(Column::speed_mps));
    CHECK_FALSE(log.rows[3].holds(Column::hopper_kg));
}

TEST_CASE("A cell of an unknown column may hold anything") {
    const test::ReadLog log = read_log("unix_s,hopper_kg,remark\n1,5,\"wet, very\"\n2,5,nan\n");
    CHECK(log.rows.size() == 2);
    CHECK(log.rows_bad == 0);
}

TEST_CASE("A long cell is shortened in what is told") {
    const test::ReadLog log = read_log(kHeader + "1,5,1\n2," + std::string(5000, 'z') + ",1\n3,5,1\n");
    REQUIRE(log.problems.count() == 1);
    CHECK(log.problems.kept().front().reason.size() < 120);
}

TEST_CASE("Many bad rows are all counted while only the first are kept in full") {
    std::string text = kHeader + "0,5,1\n";
    for (int i = 1; i <= 5000; ++i) text += std::to_string(i) + ",bad,1\n";
    text += "5001,5,1\n";
    const test::ReadLog log = read_log(text);
    CHECK(log.rows.size() == 2);
    CHECK(log.rows_bad == 5000);
    CHECK(log.problems.count() == 5000);
    CHECK(log.problems.kept().size() == 50);
    CHECK(log.problems.kept().front().line == 3);
}

TEST_CASE("A log cut in its last row says that the file ends there") {
    const test::ReadLog log = read_log(kHeader + "1,5,1\n2,5,1\n3,5");
    CHECK(log.rows.size() == 2);
    REQUIRE(log.problems.count() == 1);
    CHECK(log.problems.kept().front().line == 4);
    CHECK(log.problems.kept().front().reason == "row has 2 cells instead of 3 (the file ends in it)");
}

TEST_CASE("Rows keep the line they stand on over Windows line ends and empty lines") {
    const test::ReadLog log = read_log("unix_s,hopper_kg\r\n1,5\r\n\r\n2,5\r\n");
    REQUIRE(log.rows.size() == 2);
    CHECK(log.rows[0].line == 2);
    CHECK(log.rows[1].line == 4);
}
