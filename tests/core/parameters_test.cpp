#include "podrate/parameters.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <set>
#include <string>

using namespace podrate;

TEST_CASE("Each default lies in its own range") {
    for (const ParameterInfo& info : kParameterTable) {
        INFO(info.name);
        CHECK(info.low < info.high);
        CHECK(info.value >= info.low);
        CHECK(info.value <= info.high);
    }
    CHECK(first_invalid(Parameters{}) == nullptr);
}

TEST_CASE("Table and struct agree") {
    const Parameters defaults;
    for (const ParameterInfo& info : kParameterTable) {
        INFO(info.name);
        CHECK(defaults.*info.member == static_cast<Real>(info.value));
    }
    CHECK(sizeof(Parameters) == kParameterCount * sizeof(Real));
}

TEST_CASE("Names are unique and every parameter has unit and source and decimals") {
    std::set<std::string> names;
    for (const ParameterInfo& info : kParameterTable) {
        INFO(info.name);
        CHECK(names.insert(info.name).second);
        CHECK_FALSE(std::string(info.unit).empty());
        CHECK_FALSE(std::string(kParameterSources[&info - kParameterTable]).empty());
        CHECK(info.decimals >= 0);
        CHECK(info.decimals <= 6);
    }
}

TEST_CASE("A value outside its range is found by name") {
    for (const ParameterInfo& info : kParameterTable) {
        INFO(info.name);
        const double span = info.high - info.low;
        for (const double bad : {info.low - 0.01 * span, info.high + 0.01 * span, -1e30, 1e30}) {
            Parameters parameters;
            parameters.*info.member = static_cast<Real>(bad);
            REQUIRE(first_invalid(parameters) != nullptr);
            CHECK(std::string(first_invalid(parameters)->name) == info.name);
        }
        for (const double good : {info.low, info.high}) {
            Parameters parameters;
            parameters.*info.member = static_cast<Real>(good);
            CHECK(first_invalid(parameters) == nullptr);
        }
    }
}

TEST_CASE("NaN is never a valid parameter") {
    for (const ParameterInfo& info : kParameterTable) {
        INFO(info.name);
        Parameters parameters;
        parameters.*info.member = std::numeric_limits<Real>::quiet_NaN();
        REQUIRE(first_invalid(parameters) != nullptr);
        CHECK(std::string(first_invalid(parameters)->name) == info.name);
    }
}

TEST_CASE("Of several wrong values the first in the table is named") {
    Parameters parameters;
    parameters.outage_s = Real(-1);
    parameters.hopper_capacity_kg = Real(-1);
    CHECK(std::string(first_invalid(parameters)->name) == "hopper_capacity_kg");
}
