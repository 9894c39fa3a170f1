#include "podrate/retained/retained_bytes.hpp"

#include <catch2/catch.hpp>
#include <cstring>
#include <limits>

#include "podrate/retained/crc32.hpp"
#include "retained/made_state.hpp"

using namespace podrate;

namespace {

std::vector<std::uint8_t> saved(const RetainedState& state) {
    std::vector<std::uint8_t> bytes(kSavedBytes);
    write_saved(state, bytes.data());
    return bytes;
}

void mend_crc(std::vector<std::uint8_t>& bytes) {
    const std::uint32_t crc = crc32(bytes.data(), bytes.size() - 4);
    for (unsigned i = 0; i < 4; ++i) bytes[bytes.size() - 4 + i] = static_cast<std::uint8_t>(crc >> (8U * i));
}

}  // namespace

TEST_CASE("The CRC is the one of IEEE 802.3") {
    // The check value of the catalogue of parametrised CRC algorithms (CRC-32/ISO-HDLC).
    const char* digits = "123456789";
    const auto* bytes = reinterpret_cast<const std::uint8_t*>(digits);
    CHECK(crc32(bytes, 9) == 0xCBF43926U);
    CHECK(crc32(bytes + 4, 5, crc32(bytes, 4)) == 0xCBF43926U);
    CHECK(crc32(bytes, 0) == 0U);
    static constexpr std::uint8_t kDigits[] = {'1', '2', '3', '4', '5', '6', '7', '8', '9'};
    static_assert(crc32(kDigits, 9) == 0xCBF43926U);
}

TEST_CASE("The layout is little end first and of fixed size") {
    static_assert(kNowBytes == 48);
    RetainedNow now;
    now.time_us = 0x0102030405060708;
    now.inflow_kg = {1.0F, -2.0F};
    std::uint8_t bytes[kNowBytes];
    write_now(now, bytes);
    const std::uint8_t first[16] = {8, 7, 6, 5, 4, 3, 2, 1, 0, 0, 0x80, 0x3F, 0, 0, 0, 0xC0};
    CHECK(std::memcmp(bytes, first, sizeof first) == 0);
}

TEST_CASE("Every field comes back as it was") {
    for (std::uint32_t seed = 1; seed < 200; ++seed) {
        const RetainedState state = test::filled_state(seed);
        const std::vector<std::uint8_t> bytes = saved(state);
        RetainedState back;
        REQUIRE(read_saved(bytes.data(), bytes.size(), back) == ReadResult::good);
        REQUIRE(saved(back) == bytes);
        REQUIRE(back.loads.last.net_kg == state.loads.last.net_kg);
        REQUIRE(back.learnt.loss.level == state.learnt.loss.level);
        REQUIRE(back.clock.pieces[3].utc_us == state.clock.pieces[3].utc_us);
    }
}

TEST_CASE("Bytes that are damaged or short or of another version are refused") {
    const std::vector<std::uint8_t> good = saved(test::filled_state(5));
    RetainedState state;
    for (std::size_t i = 0; i < good.size(); ++i) {
        std::vector<std::uint8_t> bytes = good;
        bytes[i] ^= 0x10;
        REQUIRE(read_saved(bytes.data(), bytes.size(), state) == ReadResult::damaged);
    }
    for (std::size_t size = 0; size < good.size(); ++size)
        REQUIRE(read_saved(good.data(), size, state) == ReadResult::damaged);
    std::vector<std::uint8_t> newer = good;
    newer[4] = kRetainedVersion + 1;
    mend_crc(newer);
    CHECK(read_saved(newer.data(), newer.size(), state) == ReadResult::other_version);
}

TEST_CASE("Numbers that cannot be are refused although their CRC is right") {
    const std::vector<std::uint8_t> good = saved(test::filled_state(5));
    const float strange[] = {std::numeric_limits<float>::quiet_NaN(), std::numeric_limits<float>::infinity(),
                             -std::numeric_limits<float>::infinity(), 3e38F};
    // The floats of RetainedNow: 8 bytes of head and 8 of time before them.
    for (std::size_t at = 16; at < 8 + kNowBytes; at += 4) {
        for (const float value : strange) {
            std::vector<std::uint8_t> bytes = good;
            std::memcpy(bytes.data() + at, &value, 4);
            mend_crc(bytes);
            RetainedState state;
            REQUIRE(read_saved(bytes.data(), bytes.size(), state) == ReadResult::damaged);
        }
    }
    std::vector<std::uint8_t> late = good;
    late[15] = 0x7F;  // the highest byte of the time of writing
    mend_crc(late);
    RetainedState state;
    CHECK(read_saved(late.data(), late.size(), state) == ReadResult::damaged);
}
