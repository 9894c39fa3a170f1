// RFC 4180, Common Format and MIME Type for CSV Files, section 2.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "log/csv_record.hpp"
#include "sim/string_source.hpp"

using namespace podrate;

namespace {

using Cells = std::vector<std::string>;

struct Read {
    Cells cells;
    std::uint64_t line;
    bool good;
    std::string fault;
};

std::vector<Read> records_of(const std::string& text) {
    sim::CsvReader reader(std::make_unique<test::StringSource>(text, 5));
    std::vector<Read> all;
    sim::CsvRecord record;
    while (reader.next(record)) {
        all.push_back({Cells(record.cells.begin(), record.cells.end()), record.line, record.fault == nullptr,
                       record.fault == nullptr ? "" : record.fault});
    }
    return all;
}

Cells only_record(const std::string& text) {
    const std::vector<Read> all = records_of(text);
    REQUIRE(all.size() == 1);
    REQUIRE(all.front().good);
    return all.front().cells;
}

}  // namespace

TEST_CASE("Cells are split at commas and empty ones kept") {
    CHECK(only_record("aaa,bbb,ccc\r\n") == Cells{"aaa", "bbb", "ccc"});
    CHECK(only_record(",,\n") == Cells{"", "", ""});
    CHECK(only_record("a,\n") == Cells{"a", ""});
    CHECK(only_record("a") == Cells{"a"});
}

TEST_CASE("Quoted cells may hold commas and doubled quotes") {
    CHECK(only_record("\"aaa\",\"b,b\",ccc\n") == Cells{"aaa", "b,b", "ccc"});
    CHECK(only_record("\"a\"\"b\"\n") == Cells{"a\"b"});
    CHECK(only_record("\"\"\"\"\n") == Cells{"\""});
    CHECK(only_record("\"\",x,\"\"\n") == Cells{"", "x", ""});
}

TEST_CASE("Quoted cells may hold line ends") {
    const std::vector<Read> all = records_of("\"aaa\",\"b\r\nbb\",ccc\r\nzzz,yyy,xxx\r\n");
    REQUIRE(all.size() == 2);
    CHECK(all[0].cells == Cells{"aaa", "b\nbb", "ccc"});
    CHECK(all[0].line == 1);
    CHECK(all[1].cells == Cells{"zzz", "yyy", "xxx"});
    CHECK(all[1].line == 3);
}

TEST_CASE("Empty lines are no records and still count as lines") {
    const std::vector<Read> all = records_of("\n\na\n\nb\n");
    REQUIRE(all.size() == 2);
    CHECK(all[0].line == 3);
    CHECK(all[1].line == 5);
}

TEST_CASE("A quote that never closes costs its own line and no other") {
    std::string text = "1,\"stray,2\n";
    for (int i = 0; i < 100; ++i) text += std::to_string(i) + ",a,b\n";
    const std::vector<Read> all = records_of(text);
    REQUIRE(all.size() == 101);
    CHECK(all[0].fault == "a quote is opened and never closed");
    for (std::size_t i = 1; i <= 100; ++i) {
        REQUIRE(all[i].good);
        REQUIRE(all[i].cells == Cells{std::to_string(i - 1), "a", "b"});
        REQUIRE(all[i].line == i + 1);
    }
}

TEST_CASE("A quote that never closes in the last line is told") {
    const std::vector<Read> all = records_of("a,b\n1,\"2");
    REQUIRE(all.size() == 2);
    CHECK(all[1].fault == "a quote is opened and never closed");
}

TEST_CASE("Text after a closing quote is a fault of that row") {
    const std::vector<Read> all = records_of("\"a\"x,b\nc,d\n");
    REQUIRE(all.size() == 2);
    CHECK(all[0].fault == "text follows a closing quote");
    CHECK(all[1].cells == Cells{"c", "d"});
}

TEST_CASE("NUL bytes make a row unusable and no other") {
    const std::vector<Read> all = records_of(std::string("a,b\n1,") + '\0' + "\n2,3\n");
    REQUIRE(all.size() == 3);
    CHECK(all[1].fault == "it holds NUL bytes");
    CHECK(all[2].good);
}

TEST_CASE("A line over one MiB is a fault of that row") {
    const std::vector<Read> all = records_of("a\n" + std::string((1 << 20) + 1, 'x') + "\nb\n");
    REQUIRE(all.size() == 3);
    CHECK(all[1].fault == "it is longer than 1 MiB");
    CHECK(all[2].cells == Cells{"b"});
}

TEST_CASE("Blanks around a cell are taken off where numbers and names are read") {
    CHECK(sim::trimmed(" \tunix_s\t ") == "unix_s");
    CHECK(sim::trimmed("   ").empty());
    CHECK(sim::trimmed("a b") == "a b");
}
