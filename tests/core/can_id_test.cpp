#include "podrate/bus/can_id.hpp"

#include <catch2/catch.hpp>

#include "core/normals.hpp"

using namespace podrate::bus;

TEST_CASE("Identifiers of known messages come apart as published") {
    // canboatjs 3.20.0 takes these apart so.
    const CanId position = split(0x09F8011C);
    CHECK(position.priority == 2);
    CHECK(position.pgn == 129025);
    CHECK(position.destination == 0xFF);
    CHECK(position.source == 0x1C);
    const CanId attitude = split(0x0DF1191C);
    CHECK(attitude.priority == 3);
    CHECK(attitude.pgn == 127257);
    // SAE J1939-21: below PDU format 240 the next byte is a destination.
    const CanId claim = split(0x18EEFF80);
    CHECK(claim.priority == 6);
    CHECK(claim.pgn == 60928);
    CHECK(claim.destination == 0xFF);
    const CanId process = split(0x0CCB26F7);
    CHECK(process.pgn == 0xCB00);
    CHECK(process.destination == 0x26);
    CHECK(process.source == 0xF7);
    CHECK(split(0x0CFE491C).pgn == 65097);
}

TEST_CASE("The last format with a destination is 239") {
    CHECK(has_destination(0xEF00));
    CHECK_FALSE(has_destination(0xF000));
    CHECK(has_destination(0x1EF00));
    CHECK_FALSE(has_destination(0x1F000));
    CHECK(split(0x18EF1234).destination == 0x12);
    CHECK(split(0x18F01234).pgn == 0xF012);
}

TEST_CASE("Each of 29 bits comes back") {
    podrate::test::Normals numbers(7);
    for (int i = 0; i < 100000; ++i) {
        const auto id = static_cast<std::uint32_t>(numbers.uniform() * 536870912.0);
        REQUIRE(join(split(id)) == id);
    }
    CHECK(join(split(0x1FFFFFFF)) == 0x1FFFFFFF);
    CHECK(join(split(0)) == 0);
}
