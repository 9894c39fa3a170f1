#include "log/line_reader.hpp"

#include <catch2/catch.hpp>
#include <initializer_list>
#include <string>
#include <vector>

#include "sim/string_source.hpp"

using namespace podrate;
using sim::Line;
using sim::LineReader;

namespace {

std::vector<std::string> lines_of(const std::string& text, std::size_t piece = std::string::npos) {
    LineReader reader(std::make_unique<test::StringSource>(text, piece));
    std::vector<std::string> lines;
    Line line;
    while (reader.next(line)) {
        lines.emplace_back(line.text);
        CHECK(line.number == lines.size());
        CHECK_FALSE(line.too_long);
    }
    return lines;
}

using Lines = std::vector<std::string>;

// The longest line, what is read ahead of it, and the doubling of a buffer.
constexpr std::size_t kMostRoom = 4 * LineReader::kLongest;

}  // namespace

TEST_CASE("Line ends of Unix and of Windows are both taken off") {
    CHECK(lines_of("a\nb\n") == Lines{"a", "b"});
    CHECK(lines_of("a\r\nb\r\n") == Lines{"a", "b"});
    CHECK(lines_of("a\nb\r\n\r\n\nc\n") == Lines{"a", "b", "", "", "c"});
}

TEST_CASE("A carriage return inside a line stays") {
    CHECK(lines_of("a\rb\n") == Lines{"a\rb"});
}

TEST_CASE("The last line counts without a line end and says so") {
    LineReader reader(std::make_unique<test::StringSource>("a\nb"));
    Line line;
    REQUIRE(reader.next(line));
    CHECK(line.ended);
    REQUIRE(reader.next(line));
    CHECK(line.text == "b");
    CHECK_FALSE(line.ended);
    CHECK_FALSE(reader.next(line));
    CHECK_FALSE(reader.next(line));
}

TEST_CASE("An empty source holds no line") {
    CHECK(lines_of("").empty());
    CHECK(lines_of("\n") == Lines{""});
}

TEST_CASE("After its end a source is asked anew") {
    auto owned = std::make_unique<test::GrowingSource>();
    test::GrowingSource& source = *owned;
    LineReader reader(std::move(owned));
    Line line;
    CHECK_FALSE(reader.next(line));
    source.text += "a\n";
    REQUIRE(reader.next(line));
    CHECK(line.text == "a");
    CHECK_FALSE(reader.next(line));
    CHECK_FALSE(reader.next(line));
    source.text += "b\nc\n";
    REQUIRE(reader.next(line));
    REQUIRE(reader.next(line));
    CHECK(line.text == "c");
    CHECK(line.number == 3);
    CHECK_FALSE(reader.next(line));
}

TEST_CASE("A byte order mark is dropped at the start and nowhere else") {
    CHECK(lines_of("\xEF\xBB\xBFunix_s\n1\n") == Lines{"unix_s", "1"});
    CHECK(lines_of("a\n\xEF\xBB\xBF"
                   "b\n") == Lines{"a",
                                   "\xEF\xBB\xBF"
                                   "b"});
    CHECK(lines_of("\xEF\xBB\xBF") == Lines{""});
}

TEST_CASE("Lines do not depend on how the bytes come in pieces") {
    std::string text = "\xEF\xBB\xBFunix_s,hopper_kg\r\n";
    for (int i = 0; i < 300; ++i) text += std::to_string(i * 7919) + ",\r\n" + (i % 5 == 0 ? "\n" : "");
    const Lines whole = lines_of(text);
    REQUIRE(whole.size() == 361);
    for (const std::size_t piece : std::initializer_list<std::size_t>{1, 2, 3, 7, 64, 4093}) {
        INFO("pieces of " << piece);
        CHECK(lines_of(text, piece) == whole);
    }
}

TEST_CASE("A line as long as the limit is whole") {
    const std::string longest(LineReader::kLongest, 'x');
    CHECK(lines_of("a\n" + longest + "\nb\n", 100000) == Lines{"a", longest, "b"});
}

TEST_CASE("A line one byte over the limit is passed over and those around it are not") {
    for (const std::size_t piece : {std::size_t{65536}, std::size_t{1000003}, std::string::npos}) {
        const std::string text = "a\n" + std::string(LineReader::kLongest + 1, 'x') + "\nb\nc\n";
        LineReader reader(std::make_unique<test::StringSource>(text, piece));
        Line line;
        REQUIRE(reader.next(line));
        CHECK(line.text == "a");
        REQUIRE(reader.next(line));
        CHECK(line.too_long);
        CHECK(line.text.substr(0, 3) == "xxx");
        CHECK(line.number == 2);
        REQUIRE(reader.next(line));
        CHECK(line.text == "b");
        CHECK(line.number == 3);
        CHECK_FALSE(line.too_long);
        REQUIRE(reader.next(line));
        CHECK(line.text == "c");
        CHECK_FALSE(reader.next(line));
    }
}

TEST_CASE("A line of more than a gigabyte takes bounded memory and costs no other line") {
    constexpr std::uint64_t kFillerBytes = 1200000000;
    std::string tail = "\n";
    for (int i = 0; i < 1000; ++i) tail += "good " + std::to_string(i) + "\n";
    auto owned = std::make_unique<test::LongLineSource>("first\n", kFillerBytes, tail);
    const test::LongLineSource& source = *owned;
    LineReader reader(std::move(owned));
    Line line;
    REQUIRE(reader.next(line));
    CHECK(line.text == "first");
    REQUIRE(reader.next(line));
    CHECK(line.too_long);
    CHECK(line.number == 2);
    CHECK(line.text.size() <= LineReader::kLongest);
    for (int i = 0; i < 1000; ++i) {
        REQUIRE(reader.next(line));
        REQUIRE(line.text == "good " + std::to_string(i));
    }
    CHECK_FALSE(reader.next(line));
    CHECK(source.position() > kFillerBytes);
    CHECK(source.largest_asked() <= kMostRoom);
}

TEST_CASE("A line too long that the source ends in is the last") {
    LineReader reader(std::make_unique<test::LongLineSource>("a\n", 5000000, ""));
    Line line;
    REQUIRE(reader.next(line));
    REQUIRE(reader.next(line));
    CHECK(line.too_long);
    CHECK_FALSE(reader.next(line));
}

TEST_CASE("Several lines too long in a row are passed over one by one") {
    std::string text = "a\n";
    for (int i = 0; i < 3; ++i) text += std::string(3000000, 'y') + "\n" + std::to_string(i) + "\n";
    LineReader reader(std::make_unique<test::StringSource>(text));
    Line line;
    REQUIRE(reader.next(line));
    for (int i = 0; i < 3; ++i) {
        REQUIRE(reader.next(line));
        CHECK(line.too_long);
        REQUIRE(reader.next(line));
        CHECK(line.text == std::to_string(i));
    }
    CHECK_FALSE(reader.next(line));
}

TEST_CASE("Many lines too long do not make the reader grow") {
    // Each line ends at another place of the reader's pieces.
    auto owned = std::make_unique<test::RepeatedLineSource>(3000017, 60);
    const test::RepeatedLineSource& source = *owned;
    LineReader reader(std::move(owned));
    Line line;
    int lines = 0;
    while (reader.next(line)) {
        CHECK(line.too_long);
        ++lines;
    }
    CHECK(lines == 60);
    CHECK(source.largest_asked() <= kMostRoom);
}
