#include <catch2/catch.hpp>

#include "sim/read_log.hpp"

using namespace podrate;
using test::read_log;

namespace {

std::string row(const std::string& unix_s) {
    return unix_s + ",5\n";
}

const std::string kHeader = "unix_s,hopper_kg\n";

}  // namespace

TEST_CASE("Times are kept to the microsecond and equal times are taken") {
    const test::ReadLog log = read_log(kHeader + row("1751032800.000001") + row("1751032800.000001") +
                                       row("1751032800.1") + row("1751032800.9999994"));
    REQUIRE(log.rows.size() == 4);
    CHECK(log.rows[0].time_us == 1751032800000001);
    CHECK(log.rows[1].time_us == 1751032800000001);
    CHECK(log.rows[2].time_us == 1751032800100000);
    CHECK(log.rows[3].time_us == 1751032800999999);
}

TEST_CASE("Time going back skips rows only until it catches up") {
    const test::ReadLog log =
        read_log(kHeader + row("100") + row("110") + row("105") + row("109.9") + row("110") + row("111"));
    CHECK(log.rows.size() == 4);
    CHECK(log.rows_bad == 2);
    CHECK(log.problems.kept()[0].reason == "time goes back by 5.000 s");
    CHECK(log.problems.kept()[0].line == 4);
    CHECK(log.problems.kept()[1].reason == "time goes back by 0.100 s");
}

TEST_CASE("One row with a leaping time does not cost the rest of the log") {
    for (const std::string leap : {"1951032805", "9999999999", "1751132805"}) {
        INFO("leap to " << leap);
        std::string text = kHeader;
        for (int i = 0; i < 5; ++i) text += row(std::to_string(1751032800 + i));
        text += row(leap);
        for (int i = 6; i < 20; ++i) text += row(std::to_string(1751032800 + i));
        const test::ReadLog log = read_log(text);
        CHECK(log.rows.size() == 19);
        CHECK(log.rows_bad == 1);
        REQUIRE(log.problems.count() == 1);
        CHECK(log.problems.kept().front().line == 7);
        CHECK(log.problems.kept().front().reason == "time stands far from the rows around it");
    }
}

TEST_CASE("A first row with a spoilt time does not cost the rest of the log") {
    for (const std::string first : {"9751032800", "0", "175103280"}) {
        INFO("first " << first);
        std::string text = kHeader + row(first);
        for (int i = 1; i < 20; ++i) text += row(std::to_string(1751032800 + i));
        const test::ReadLog log = read_log(text);
        CHECK(log.rows.size() == 19);
        CHECK(log.rows_bad == 1);
    }
}

TEST_CASE("A last row whose time leaps is not believed") {
    const test::ReadLog log = read_log(kHeader + row("100") + row("101") + row("900000"));
    CHECK(log.rows.size() == 2);
    CHECK(log.rows_bad == 1);
}

TEST_CASE("The last row of a slow log is believed") {
    std::string text = kHeader;
    for (int i = 0; i < 20; ++i) text += row(std::to_string(1751032800 + 15 * i));
    const test::ReadLog log = read_log(text);
    CHECK(log.rows.size() == 20);
    CHECK(log.problems.count() == 0);
}

TEST_CASE("A leap of more than a day is used and told") {
    const test::ReadLog log =
        read_log(kHeader + row("1751032800") + row("1751032801") + row("1751232800") + row("1751232801"));
    CHECK(log.rows.size() == 4);
    REQUIRE(log.problems.count() == 1);
    CHECK(log.problems.kept().front().line == 4);
    CHECK(log.problems.kept().front().reason == "time leaps ahead by 55.6 h");
}

TEST_CASE("A true gap of a night is believed once the next row agrees") {
    const test::ReadLog log =
        read_log(kHeader + row("1751032800") + row("1751032801") + row("1751080000") + row("1751080001"));
    CHECK(log.rows.size() == 4);
    CHECK(log.rows_bad == 0);
}

TEST_CASE("A log of one row is a log") {
    const test::ReadLog log = read_log(kHeader + row("1751032800"));
    CHECK(log.rows.size() == 1);
    CHECK(log.rows_bad == 0);
}

TEST_CASE("Rows given never go back in time whatever the order in the file") {
    // A shuffled log: a seeded walk with jumps both ways.
    std::string text = kHeader;
    std::uint64_t state = 12345;
    for (int i = 0; i < 2000; ++i) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        text += row(std::to_string(1000000 + static_cast<long>(state >> 40) % 100000));
    }
    const test::ReadLog log = read_log(text);
    REQUIRE(log.rows.size() > 2);
    for (std::size_t i = 1; i < log.rows.size(); ++i) REQUIRE(log.rows[i].time_us >= log.rows[i - 1].time_us);
    CHECK(log.rows.size() + log.rows_bad == log.rows_read);
    CHECK(log.rows_read == 2000);
}
