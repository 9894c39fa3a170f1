// A 29-bit identifier, taken apart after SAE J1939-21 and ISO 11783-3 (layout from memory, held against the
// published examples in the tests).
#pragma once

#include <cstdint>

namespace podrate::bus {

inline constexpr std::uint8_t kEverybody = 0xFF;  // as destination; no frame comes from there
inline constexpr std::uint8_t kNobody = 0xFE;     // as source: one that found no address

struct CanId {
    std::uint8_t priority = 6;  // 0 to 7, 0 goes first
    std::uint32_t pgn = 0;      // 18 bits; the low 8 are 0 where the message has a destination
    std::uint8_t destination = kEverybody;
    std::uint8_t source = kNobody;
};

// PDU1, a PDU format below 240: the second byte is a destination. PDU2: it belongs to the number.
constexpr bool has_destination(std::uint32_t pgn) {
    return ((pgn >> 8) & 0xFFU) < 240;
}

constexpr CanId split(std::uint32_t id) {
    CanId parts;
    parts.priority = static_cast<std::uint8_t>((id >> 26) & 7U);
    parts.source = static_cast<std::uint8_t>(id & 0xFFU);
    parts.pgn = (id >> 8) & 0x3FFFFU;
    if (has_destination(parts.pgn)) {
        parts.destination = static_cast<std::uint8_t>(parts.pgn & 0xFFU);
        parts.pgn &= 0x3FF00U;
    }
    return parts;
}

constexpr std::uint32_t join(const CanId& parts) {
    const std::uint32_t pgn =
        has_destination(parts.pgn) ? (parts.pgn & 0x3FF00U) | parts.destination : parts.pgn & 0x3FFFFU;
    return (static_cast<std::uint32_t>(parts.priority & 7U) << 26) | (pgn << 8) | parts.source;
}

}  // namespace podrate::bus
