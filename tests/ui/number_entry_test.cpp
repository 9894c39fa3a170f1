// Lines and numbers as they are typed.
#include "kit/number_entry.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "podrate/parameters.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

void type(TypedLine& line, const char32_t* signs) {
    for (; *signs != 0; ++signs) line.type(*signs);
}

constexpr Speech kGerman = {Language::german, Units::metric};

std::string refusal_of(const std::string& typed, const Speech& say = {}) {
    NumberEntry entry({0.01, 0.9, 3});
    entry.line().begin(typed);
    CHECK(entry.value().has_value() == entry.refusal(say).empty());
    return entry.refusal(say);
}

}  // namespace

TEST_CASE("A line takes signs, moves between them and takes them out again") {
    TypedLine line;
    type(line, U"l\u00FCh\u20AC\U0001F331");
    CHECK(line.text() == "l\xC3\xBCh\xE2\x82\xAC\xF0\x9F\x8C\xB1");
    line.backspace();
    CHECK(line.text() == "l\xC3\xBCh\xE2\x82\xAC");
    line.left();
    line.left();
    line.backspace();
    CHECK(line.text() == "lh\xE2\x82\xAC");
    line.remove();
    CHECK(line.text() == "l\xE2\x82\xAC");
    type(line, U"x");
    CHECK(line.text() == "lx\xE2\x82\xAC");
    line.to_start();
    line.backspace();
    line.left();
    type(line, U"0");
    line.to_end();
    line.remove();
    line.right();
    type(line, U"9");
    CHECK(line.text() ==
          "0lx\xE2\x82\xAC"
          "9");
}

TEST_CASE("The first sign takes the place of what a line began with, a move keeps it") {
    TypedLine line;
    line.begin("3.75");
    CHECK(line.fresh());
    type(line, U"4");
    CHECK(line.text() == "4");
    CHECK_FALSE(line.fresh());
    line.begin("3.75");
    line.left();
    type(line, U"1");
    CHECK(line.text() == "3.715");
    line.begin("3.75");
    line.backspace();
    CHECK(line.text() == "3.7");
}

TEST_CASE("Control signs and half signs and what finds no room are passed over") {
    TypedLine line(3);
    for (const char32_t sign : {0x0AU, 0x1BU, 0x7FU, 0x85U, 0xD800U, 0xDFFFU, 0x110000U}) line.type(sign);
    CHECK(line.text().empty());
    type(line, U"\u00E4\u00F6\u00FCx");
    CHECK(line.text() == "\xC3\xA4\xC3\xB6\xC3\xBC");
}

TEST_CASE("Whatever is typed, a line is whole UTF-8 and its place lies between two signs") {
    std::mt19937 bits(3);
    for (int round = 0; round < 200; ++round) {
        TypedLine line(20);
        for (int step = 0; step < 60; ++step) {
            switch (bits() % 7) {
                case 0: line.backspace(); break;
                case 1: line.remove(); break;
                case 2: line.left(); break;
                case 3: line.right(); break;
                default: line.type(static_cast<char32_t>(bits() % 0x3000)); break;
            }
            REQUIRE(line.at() <= line.text().size());
            const auto leads = [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; };
            REQUIRE((line.at() == line.text().size() || leads(line.text()[line.at()])));
        }
    }
}

TEST_CASE("Comma and point are both decimal signs") {
    CHECK(typed_number("3.75") == 3.75);
    CHECK(typed_number("3,75") == 3.75);
    CHECK(typed_number(" -0,5 ") == -0.5);
    CHECK(typed_number("+2") == 2.0);
    for (const char* text : {"", "-", "3,7.5", "1,234,5", "3 75", "x", "nan", "inf", "0x10", "+-2"}) {
        INFO(text);
        CHECK_FALSE(typed_number(text).has_value());
    }
}

TEST_CASE("A number's text reads back as the same number in each language") {
    std::mt19937 bits(17);
    for (const ParameterInfo& info : kParameterTable) {
        CHECK(number_text({}, static_cast<float>(info.value), 6).find("000000001") == std::string::npos);
        for (int i = 0; i < 20; ++i) {
            const double share = static_cast<double>(bits()) / 4294967295.0;
            const auto value = static_cast<float>(info.low + share * (info.high - info.low));
            for (const Speech& say : {Speech{}, kGerman})
                REQUIRE(static_cast<float>(*typed_number(number_text(say, value, info.decimals))) == value);
        }
    }
    CHECK(number_text({}, 0.1F, 3) == "0.100");
    CHECK(number_text(kGerman, 0.12345F, 3) == "0,12345");
}

TEST_CASE("What is wrong with a number is told in words and in the language's decimal sign") {
    CHECK(refusal_of("0.5").empty());
    CHECK(refusal_of("0.01").empty());
    CHECK(refusal_of("0.9").empty());
    CHECK(refusal_of("0.901") == "0.901 is outside. Allowed: 0.010 to 0.900");
    CHECK(refusal_of("2..") == "2.. is no number. Allowed: 0.010 to 0.900");
    CHECK(refusal_of("") == "Give a number: 0.010 to 0.900");
    CHECK(refusal_of("1,5", kGerman) ==
          "1,5 liegt au\xC3\x9F"
          "erhalb. Erlaubt: 0,010\xE2\x80\x93"
          "0,900");
}
