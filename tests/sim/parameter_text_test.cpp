// A parameter set as text: everything comes back, nothing damaged or meaning something else is read.
#include "parameters/parameter_text.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "log/problem.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

ParameterSet made_set() {
    ParameterSet set;
    set.values[7] = Real(5.25);
    set.values[12] = Real(0.1);
    set.made = {"wet corner: \"drum\" \\ full\nsecond line \t\x01", "A. M\xC3\xBCller", 1782538800,
                "viner_2, Harrowmere", "0123456789abcdef"};
    set.history.push_back({"first", "B", 1782530000, "viner_2", "00000000000000ff"});
    set.history.push_back({"", "", 0, "", ""});
    return set;
}

bool same(const SetEntry& a, const SetEntry& b) {
    return a.note == b.note && a.who == b.who && a.unix_s == b.unix_s && a.made_from == b.made_from &&
           a.made_from_mark == b.made_from_mark;
}

bool same(const ParameterSet& a, const ParameterSet& b) {
    return a.values == b.values && same(a.made, b.made) &&
           std::equal(a.history.begin(), a.history.end(), b.history.begin(), b.history.end(),
                      [](const SetEntry& x, const SetEntry& y) { return same(x, y); });
}

ParameterSet back(const std::string& text) {
    return parse_parameter_set(text, "set.toml");
}

// Sealed by hand, as a person would.
std::string refusal_of(const std::string& content) {
    try {
        (void)sealed_again(content, "set.toml");
    } catch (const RefusedInput& refused) {
        return refused.what();
    }
    return "";
}

std::string content(const std::string& values, const std::string& version = "4") {
    return "parameter_version = " + version +
           "\nnote = \"n\"\nwho = \"w\"\nwhen = 2026-06-27T05:40:00Z\nmade_from = \"\"\nmade_from_mark = "
           "\"\"\n"
           "[parameters]\n" +
           values;
}

void check_refusal(const std::string& refusal, std::initializer_list<const char*> parts) {
    for (const char* part : parts) {
        INFO(refusal << " should say " << part);
        CHECK(refusal.find(part) != std::string::npos);
    }
}

}  // namespace

TEST_CASE("A parameter set comes back as it was written") {
    const ParameterSet set = made_set();
    CHECK(same(back(parameter_set_text(set)), set));
    CHECK(same(back(parameter_set_text(ParameterSet{})), ParameterSet{}));
    CHECK(parameter_set_text(back(parameter_set_text(set))) == parameter_set_text(set));
}

TEST_CASE("Each parameter comes back to the last bit") {
    std::mt19937 bits(5);
    for (int round = 0; round < 200; ++round) {
        ParameterSet set;
        for (std::size_t i = 0; i < kParameterCount; ++i) {
            const ParameterInfo& info = kParameterTable[i];
            const double share = static_cast<double>(bits()) / 4294967295.0;
            if (bits() % 3 != 0) set.values[i] = static_cast<Real>(info.low + share * (info.high - info.low));
        }
        REQUIRE(back(parameter_set_text(set)).values == set.values);
    }
    for (const bool high : {false, true}) {
        ParameterSet ends;
        for (std::size_t i = 0; i < kParameterCount; ++i)
            ends.values[i] = static_cast<Real>(high ? kParameterTable[i].high : kParameterTable[i].low);
        CHECK(back(parameter_set_text(ends)).values == ends.values);
    }
}

TEST_CASE("No flipped bit and no changed byte and no cut of a parameter set is read") {
    const std::string good = parameter_set_text(made_set());
    REQUIRE(good.size() > 700);
    const auto refused = [](const std::string& text) {
        try {
            (void)back(text);
        } catch (const RefusedInput&) {
            return true;
        }
        return false;
    };
    for (std::size_t bit = 0; bit < 8 * good.size(); ++bit) {
        std::string text = good;
        text[bit / 8] = static_cast<char>(static_cast<unsigned char>(text[bit / 8]) ^ (1U << (bit % 8)));
        REQUIRE(refused(text));
    }
    for (std::size_t size = 0; size < good.size(); ++size) REQUIRE(refused(good.substr(0, size)));
    std::mt19937 bits(11);
    for (int round = 0; round < 3000; ++round) {
        std::string text = good;
        for (unsigned changes = 1 + bits() % 8; changes > 0; --changes)
            text[bits() % text.size()] = static_cast<char>(bits() % 256);
        if (text != good) REQUIRE(refused(text));
    }
}

TEST_CASE("Whatever is sealed by hand is read or refused in words") {
    const std::string good = parameter_set_text(made_set());
    std::mt19937 bits(13);
    int read = 0;
    for (int round = 0; round < 3000; ++round) {
        std::string text = good.substr(good.find('\n') + 1);
        text[bits() % text.size()] = static_cast<char>(bits() % 256);
        try {
            const ParameterSet set = back(sealed_again(text, "set.toml"));
            Parameters parameters;
            set.lay_over(parameters);
            REQUIRE(first_invalid(parameters) == nullptr);
            ++read;
        } catch (const RefusedInput& refused) {
            REQUIRE(std::string(refused.what()).rfind("set.toml:", 0) == 0);
        }
    }
    CHECK(read > 100);
    CHECK(read < 2900);
}

TEST_CASE("What is wrong in a parameter set is told with line and mend") {
    CHECK(refusal_of(content("loss_limit_share = 0.2\n")).empty());
    check_refusal(refusal_of(content("los_limit_share = 0.2\n")),
                  {"set.toml:8: ", "unknown key 'los_limit_share'", "podrate parameters"});
    check_refusal(refusal_of(content("outage_s = 60\nloss_limit_share = 0.95\n")),
                  {"set.toml:9: ", "'loss_limit_share' = 0.95 is out of range", "0.01 to 0.9"});
    check_refusal(refusal_of(content("loss_limit_share = nan\n")), {"set.toml:8: ", "nan is out of range"});
    check_refusal(refusal_of(content("loss_limit_share = \"0.2\"\n")), {"set.toml:8: ", "is not a number"});
    check_refusal(refusal_of(content("loss_limit_share = true\n")), {"set.toml:8: ", "is not a number"});
    check_refusal(refusal_of(content("loss_limit_share = \n")), {"set.toml:8: ", "TOML"});
    check_refusal(refusal_of(content("", "5")), {"set.toml:1: ", "version 5", "up to 4", "newer podrate"});
    check_refusal(refusal_of(content("", "0")), {"set.toml:1: ", "out of range"});
    check_refusal(refusal_of(content("", "3.5")), {"set.toml:1: ", "whole number"});
    check_refusal(refusal_of("note = \"n\"\n"), {"has no 'parameter_version'", "add a line"});
    std::string no_time = content("");
    no_time.replace(no_time.find("2026-06-27T05:40:00Z"), 20, "2026-06-27T05:40:00");
    check_refusal(refusal_of(no_time), {"set.toml:4: ", "'when' is no moment", "2026-06-27T05:40:00Z"});
    check_refusal(refusal_of(content("[[history]]\nnote = \"n\"\nhow = 3\n")),
                  {"set.toml:10: ", "[[history]] 1", "unknown key 'how'"});
}

TEST_CASE("What is not sealed says how to seal it, and what is damaged where the last good one is") {
    const auto refusal = [](const std::string& text) {
        try {
            (void)back(text);
        } catch (const RefusedInput& refused) {
            return std::string(refused.what());
        }
        return std::string();
    };
    check_refusal(refusal(content("")), {"set.toml:1: ", "checksum", "podrate parameters --seal set.toml"});
    std::string changed = parameter_set_text(made_set());
    changed.replace(changed.find("5.25"), 4, "6.25");
    check_refusal(refusal(changed), {"damaged", "set.toml.bak", "--seal set.toml"});
    CHECK(back(sealed_again(changed, "set.toml")).values[7] == Real(6.25));
}

TEST_CASE("A parameter set of an older version is read where its keys mean the same") {
    CHECK(refusal_of(content("loss_limit_share = 0.2\n", "3")).empty());
    CHECK(back(sealed_again(content("loss_limit_share = 0.2\n", "3"), "a")).named() == 1);
    check_refusal(
        refusal_of(content("picking_loss_share = 0.04\n", "3")),
        {"set.toml:8: ", "low end", "version 3", "picking_loss_low_share", "parameter_version = 4"});
    CHECK(refusal_of(content("picking_loss_share = 0.04\n", "4")).empty());
    check_refusal(refusal_of(content("flow_noise_kgps = 0.04\n", "1")), {"dropped", "flow_noise_share"});
    check_refusal(refusal_of(content("flow_noise_kgps = 0.04\n", "2")), {"unknown key"});
}

TEST_CASE("A time with an offset is the same moment, and moments before 1970 are read") {
    const auto at = [](const std::string& time) {
        std::string text = content("");
        text.replace(text.find("2026-06-27T05:40:00Z"), 20, time);
        return back(sealed_again(text, "a")).made.unix_s;
    };
    // By `date -u -d 2026-06-27T05:40:00Z +%s`.
    CHECK(at("2026-06-27T05:40:00Z") == 1782538800);
    CHECK(at("2026-06-27T07:40:00+02:00") == 1782538800);
    CHECK(at("2026-06-27T01:10:00-04:30") == 1782538800);
    CHECK(at("1969-12-31T23:59:59Z") == -1);
    CHECK(utc_text(1782538800) == "2026-06-27T05:40:00Z");
    CHECK(utc_text(-1) == "1969-12-31T23:59:59Z");
}

TEST_CASE("A set lies over what it names and nothing else") {
    Parameters own;
    own.width_m = Real(3.75);
    Parameters wanted = own;
    wanted.loss_limit_share = Real(0.2);
    const ParameterSet set = set_between(own, wanted);
    CHECK(set.named() == 1);
    Parameters other;
    other.width_m = Real(4.5);
    set.lay_over(other);
    CHECK(other.width_m == Real(4.5));
    CHECK(other.loss_limit_share == Real(0.2));
    CHECK(other.outage_s == Parameters{}.outage_s);
    CHECK(mark_of(own) != mark_of(wanted));
    CHECK(mark_of(own) == mark_of(Parameters(own)));
}

TEST_CASE("The mark is FNV-1a of 64 bits") {
    // Test vectors of the algorithm's authors (Fowler, Noll, Vo: test_fnv.c), from memory; that of the empty
    // text is its offset basis.
    CHECK(mark_of(std::string_view("")) == "cbf29ce484222325");
    CHECK(mark_of(std::string_view("a")) == "af63dc4c8601ec8c");
    CHECK(mark_of(std::string_view("foobar")) == "85944171f73967e8");
}
