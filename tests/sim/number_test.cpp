#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <limits>

#include "log/number.hpp"

using namespace podrate::sim;

TEST_CASE("Decimal numbers are read to the nearest double") {
    CHECK(parse_number("0.1").value == 0.1);
    CHECK(parse_number(" \t-12.50 ").value == -12.5);
    CHECK(parse_number("1e3").value == 1000.0);
    CHECK(parse_number("1751032800.123456").value == 1751032800.123456);
    CHECK(parse_number("9007199254740993").value == 9007199254740992.0);
}

TEST_CASE("What is no number is told apart from nothing and from infinity") {
    CHECK(parse_number("").fault == NumberFault::empty);
    CHECK(parse_number(" \t ").fault == NumberFault::empty);
    for (const char* text : {"abc", "1.2.3", "1,5", "0x10", "--1", "1e", "1 2", "-", ".", "1kg", "\"1\""}) {
        INFO(text);
        CHECK(parse_number(text).fault == NumberFault::not_a_number);
    }
    for (const char* text : {"nan", "NaN", "-nan", "inf", "-inf", "Infinity"}) {
        INFO(text);
        CHECK(parse_number(text).fault == NumberFault::not_finite);
    }
}

TEST_CASE("A number too large for a double is not taken for one") {
    CHECK(parse_number("1e999").fault != NumberFault::none);
    CHECK(parse_number("-1e999").fault != NumberFault::none);
    CHECK(parse_number("1.7976931348623157e308").value == std::numeric_limits<double>::max());
}

TEST_CASE("Numbers do not depend on the locale") {
    // Where that locale is missing the call does nothing, and the rest still has to hold.
    std::setlocale(LC_ALL, "de_DE.UTF-8");
    CHECK(parse_number("1.5").value == 1.5);
    CHECK(fixed(1.5, 2) == "1.50");
    std::setlocale(LC_ALL, "C");
}

TEST_CASE("Fixed decimals keep their trailing zeros and never show a negative zero") {
    CHECK(fixed(0.0, 0) == "0");
    CHECK(fixed(-0.0, 1) == "0.0");
    CHECK(fixed(-0.04, 1) == "0.0");
    CHECK(fixed(-0.06, 1) == "-0.1");
    CHECK(fixed(1234.5, 3) == "1234.500");
    CHECK(fixed(-1e15, 1) == "-1000000000000000.0");
}

TEST_CASE("Ties and halves follow the exact binary value") {
    // 0.125 is exact in binary: round half to even. 2.675 lies just below the half.
    CHECK(fixed(0.125, 2) == "0.12");
    CHECK(fixed(0.375, 2) == "0.38");
    CHECK(fixed(2.675, 2) == "2.67");
}

TEST_CASE("The largest double can be written in full") {
    const std::string text = fixed(std::numeric_limits<double>::max(), 2);
    CHECK(text.size() == 312);
    CHECK(text.substr(0, 6) == "179769");
}

TEST_CASE("Appending leaves what stood before") {
    std::string text = "a,";
    append_fixed(text, -2.5, 2);
    CHECK(text == "a,-2.50");
}
