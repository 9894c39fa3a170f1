// A block comes back as it was packed, or not at all.
#include "podrate/parameter_bytes.hpp"

#include <catch2/catch.hpp>
#include <cstring>
#include <limits>
#include <random>

using namespace podrate;

namespace {

using Block = std::vector<std::uint8_t>;

Parameters random_parameters(std::uint32_t seed) {
    std::mt19937 bits(seed);
    Parameters parameters;
    for (const ParameterInfo& info : kParameterTable) {
        const double share = static_cast<double>(bits()) / 4294967295.0;
        parameters.*info.member = static_cast<Real>(info.low + share * (info.high - info.low));
    }
    return parameters;
}

Block packed(const Parameters& parameters) {
    Block bytes(kParameterBytes);
    pack_parameters(parameters, bytes.data());
    return bytes;
}

bool same(const Parameters& a, const Parameters& b) {
    for (const ParameterInfo& info : kParameterTable) {
        if (a.*info.member != b.*info.member) return false;
    }
    return true;
}

void put(Block& bytes, std::size_t at, std::uint32_t value, unsigned count) {
    for (unsigned i = 0; i < count; ++i) bytes[at + i] = static_cast<std::uint8_t>(value >> (8U * i));
}

// With a CRC that fits whatever was put into it.
ParameterRead read_with_crc(Block bytes, Parameters& to) {
    put(bytes, bytes.size() - 4, crc32(bytes.data(), bytes.size() - 4), 4);
    return unpack_parameters(bytes.data(), bytes.size(), to);
}

}  // namespace

TEST_CASE("A parameter block comes back as it was packed") {
    for (std::uint32_t seed = 1; seed <= 200; ++seed) {
        const Parameters parameters = random_parameters(seed);
        REQUIRE(first_invalid(parameters) == nullptr);
        const Block bytes = packed(parameters);
        Parameters back;
        REQUIRE(unpack_parameters(bytes.data(), bytes.size(), back) == ParameterRead::good);
        REQUIRE(same(back, parameters));
    }
    Parameters ends;
    for (const bool high : {false, true}) {
        for (const ParameterInfo& info : kParameterTable)
            ends.*info.member = static_cast<Real>(high ? info.high : info.low);
        Parameters back;
        CHECK(unpack_parameters(packed(ends).data(), kParameterBytes, back) == ParameterRead::good);
        CHECK(same(back, ends));
    }
}

TEST_CASE("A parameter block has a fixed layout, little end first") {
    Parameters parameters;
    parameters.width_m = Real(3.75);  // 0x40700000
    const Block bytes = packed(parameters);
    const std::uint8_t head[] = {'P', 'P', 'R', 'M', kParameterVersion, 0, kParameterCount & 255U, 0};
    CHECK(std::memcmp(bytes.data(), head, sizeof head) == 0);
    const std::uint8_t width[] = {0, 0, 0x70, 0x40};
    CHECK(std::memcmp(bytes.data() + 12, width, sizeof width) == 0);
    CHECK(bytes.size() == 16 + 4 * kParameterCount);
}

TEST_CASE("Each bit of a parameter block is watched, and what is refused changes nothing") {
    const Parameters parameters = random_parameters(7);
    const Block good = packed(parameters);
    const Parameters before = random_parameters(8);
    Parameters to = before;
    for (std::size_t bit = 0; bit < 8 * good.size(); ++bit) {
        Block bytes = good;
        bytes[bit / 8] = static_cast<std::uint8_t>(bytes[bit / 8] ^ (1U << (bit % 8)));
        REQUIRE(unpack_parameters(bytes.data(), bytes.size(), to) == ParameterRead::damaged);
    }
    for (std::size_t size = 0; size < good.size(); ++size)
        REQUIRE(unpack_parameters(good.data(), size, to) == ParameterRead::damaged);
    Block longer = good;
    longer.push_back(0);
    CHECK(unpack_parameters(longer.data(), longer.size(), to) == ParameterRead::damaged);
    CHECK(same(to, before));
}

TEST_CASE("A parameter block of another table is refused although its CRC is right") {
    const Parameters before = random_parameters(9);
    const Block good = packed(Parameters{});
    Parameters to = before;
    Block other = good;
    put(other, 4, kParameterVersion + 1, 2);
    CHECK(read_with_crc(other, to) == ParameterRead::other_table);
    other = good;
    put(other, 8, kParameterTableMark ^ 1U, 4);
    CHECK(read_with_crc(other, to) == ParameterRead::other_table);
    other = good;
    put(other, 6, kParameterCount - 1, 2);
    other.resize(good.size() - 4);
    CHECK(read_with_crc(other, to) == ParameterRead::other_table);
    CHECK(same(to, before));
}

TEST_CASE("A parameter block with a value out of range is refused although its CRC is right") {
    const Parameters before = random_parameters(10);
    Parameters to = before;
    const Block good = packed(Parameters{});
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        INFO(kParameterTable[i].name);
        const auto low = static_cast<float>(kParameterTable[i].low);
        const auto high = static_cast<float>(kParameterTable[i].high);
        const float inf = std::numeric_limits<float>::infinity();
        for (const float bad : {std::nextafter(low, -inf), std::nextafter(high, inf), inf, -inf,
                                std::numeric_limits<float>::quiet_NaN()}) {
            Block bytes = good;
            std::uint32_t bits = 0;
            std::memcpy(&bits, &bad, 4);
            put(bytes, 12 + 4 * i, bits, 4);
            REQUIRE(read_with_crc(bytes, to) == ParameterRead::out_of_range);
        }
    }
    CHECK(same(to, before));
}

TEST_CASE("The table's mark is the CRC of its names and units") {
    std::string words;
    for (const ParameterInfo& info : kParameterTable) {
        words += std::string(info.name) + '\0';
        words += std::string(info.unit) + '\0';
    }
    CHECK(kParameterTableMark == crc32(reinterpret_cast<const std::uint8_t*>(words.data()), words.size()));
}
