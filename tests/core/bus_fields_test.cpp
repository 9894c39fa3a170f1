// Numbers in frames and the codes that say that there is none.
#include "podrate/bus/fields.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace podrate::bus;

namespace {

Field j1939(std::uint64_t raw, int count) {
    std::uint8_t data[8];
    put_bytes(data, 8, raw);
    return j1939_field(data, count);
}

Field nmea(std::uint64_t raw, int count) {
    std::uint8_t data[8];
    put_bytes(data, 8, raw);
    return nmea2000_field(data, count);
}

Field nmea_signed(std::uint64_t raw, int count) {
    std::uint8_t data[8];
    put_bytes(data, 8, raw);
    return nmea2000_signed_field(data, count);
}

}  // namespace

TEST_CASE("The low byte comes first") {
    const std::uint8_t data[8] = {1, 2, 3, 4, 5, 6, 7, 0x88};
    CHECK(bytes_at(data, 1) == 1);
    CHECK(bytes_at(data, 2) == 0x0201);
    CHECK(bytes_at(data, 3) == 0x030201);
    CHECK(bytes_at(data, 8) == 0x8807060504030201ULL);
    CHECK(signed_bytes_at(data, 4) == 0x04030201);
    CHECK(signed_bytes_at(data, 8) == static_cast<std::int64_t>(0x8807060504030201ULL));
}

TEST_CASE("Two's complement at its ends") {
    std::uint8_t data[8] = {0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF};
    for (int count = 1; count <= 8; ++count) CHECK(signed_bytes_at(data, count) == -1);
    put_bytes(data, 8, 0x8000000000000000ULL);
    CHECK(signed_bytes_at(data, 8) == std::numeric_limits<std::int64_t>::min());
    put_bytes(data, 4, 0x80000000U);
    CHECK(signed_bytes_at(data, 4) == std::numeric_limits<std::int32_t>::min());
    put_bytes(data, 2, 0x7FFF);
    CHECK(signed_bytes_at(data, 2) == 32767);
}

TEST_CASE("J1939: values end with 0xFA at the top, then come the codes") {
    // SAE J1939-71's table of ranges, from memory.
    for (int count = 1; count <= 4; ++count) {
        INFO(count << " bytes");
        const int shift = 8 * (count - 1);
        const std::uint64_t below = (std::uint64_t(1) << shift) - 1;
        const auto top = [&](unsigned byte) { return std::uint64_t(byte) << shift; };
        CHECK(j1939(0, count).good());
        CHECK(j1939(top(0xFA) | below, count).good());
        CHECK(j1939(top(0xFA) | below, count).raw == static_cast<std::int64_t>(top(0xFA) | below));
        CHECK(j1939(top(0xFB), count).told == Told::undefined);
        CHECK(j1939(top(0xFD) | below, count).told == Told::undefined);
        CHECK(j1939(top(0xFE), count).told == Told::broken);
        CHECK(j1939(top(0xFE) | below, count).told == Told::broken);
        CHECK(j1939(top(0xFF), count).told == Told::nothing);
        CHECK(j1939(top(0xFF) | below, count).told == Told::nothing);
    }
}

TEST_CASE("NMEA 2000: the three highest are no values") {
    // canboat: 0xFFFF not available, 0xFFFE out of range or broken, 0xFFFD reserved; signed alike.
    for (int count = 1; count <= 4; ++count) {
        INFO(count << " bytes");
        const std::uint64_t top = (std::uint64_t(1) << (8 * count)) - 1;
        CHECK(nmea(top, count).told == Told::nothing);
        CHECK(nmea(top - 1, count).told == Told::broken);
        CHECK(nmea(top - 2, count).told == Told::undefined);
        CHECK(nmea(top - 3, count).good());
        CHECK(nmea(top - 3, count).raw == static_cast<std::int64_t>(top - 3));
    }
    for (int count = 1; count <= 8; ++count) {
        INFO(count << " signed bytes");
        const std::uint64_t top = (std::uint64_t(1) << (8 * count - 1)) - 1;
        CHECK(nmea_signed(top, count).told == Told::nothing);
        CHECK(nmea_signed(top - 1, count).told == Told::broken);
        CHECK(nmea_signed(top - 2, count).told == Told::undefined);
        CHECK(nmea_signed(top - 3, count).good());
        CHECK(nmea_signed(top + 1, count).good());
        CHECK(nmea_signed(top + 1, count).raw == -static_cast<std::int64_t>(top) - 1);
        CHECK(nmea_signed(~std::uint64_t(0), count).raw == -1);
    }
}
