// CRC-32 as in IEEE 802.3 (reflected, polynomial 0x04C11DB7); of "123456789" it is 0xCBF43926.
#pragma once

#include <cstddef>
#include <cstdint>

namespace podrate {

namespace crc {

// What each half byte does to the register: sixteen words are enough for a few hundred bytes a second.
struct Table {
    std::uint32_t entry[16] = {};
    constexpr Table() {
        for (std::uint32_t i = 0; i < 16; ++i) {
            std::uint32_t rest = i;
            for (int bit = 0; bit < 4; ++bit)
                rest = (rest & 1U) != 0 ? (rest >> 1U) ^ 0xEDB88320U : rest >> 1U;
            entry[i] = rest;
        }
    }
};
inline constexpr Table kTable{};

}  // namespace crc

// `before`: the CRC of what goes before these bytes; 0 at the beginning.
constexpr std::uint32_t crc32(const std::uint8_t* bytes, std::size_t count, std::uint32_t before = 0) {
    std::uint32_t rest = ~before;
    for (std::size_t i = 0; i < count; ++i) {
        rest ^= bytes[i];
        rest = (rest >> 4U) ^ crc::kTable.entry[rest & 15U];
        rest = (rest >> 4U) ^ crc::kTable.entry[rest & 15U];
    }
    return ~rest;
}

}  // namespace podrate
