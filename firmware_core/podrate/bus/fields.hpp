// Numbers in a frame's bytes, low byte first, and the codes that say that there is none.
#pragma once

#include <cstdint>

namespace podrate::bus {

enum class Told : std::uint8_t { value, nothing, broken, undefined };

struct Field {
    Told told = Told::nothing;
    std::int64_t raw = 0;  // counts where while `told` is value
    [[nodiscard]] bool good() const { return told == Told::value; }
};

constexpr std::uint64_t bytes_at(const std::uint8_t* data, int count) {
    std::uint64_t raw = 0;
    for (int i = count - 1; i >= 0; --i) raw = (raw << 8) | data[i];
    return raw;
}

constexpr void put_bytes(std::uint8_t* data, int count, std::uint64_t raw) {
    for (int i = 0; i < count; ++i) data[i] = static_cast<std::uint8_t>((raw >> (8 * i)) & 0xFFU);
}

// Two's complement of 8 * count bits, 1 to 8 bytes.
constexpr std::int64_t signed_bytes_at(const std::uint8_t* data, int count) {
    const std::uint64_t raw = bytes_at(data, count);
    const std::uint64_t sign = std::uint64_t(1) << (8 * count - 1);
    const std::uint64_t below = raw & (sign - 1);
    // The lowest of 64 bits has no positive counterpart: by way of its neighbour.
    if ((raw & sign) == 0) return static_cast<std::int64_t>(below);
    return -static_cast<std::int64_t>(sign - 1 - below) - 1;
}

// SAE J1939-71 and ISO 11783-7, unsigned of 1 to 4 bytes (from memory): by the top byte, up to 0xFA a value,
// 0xFB to 0xFD kept for later, 0xFE broken, 0xFF not available.
constexpr Field j1939_field(const std::uint8_t* data, int count) {
    const std::uint8_t top = data[count - 1];
    if (top == 0xFF) return {Told::nothing, 0};
    if (top == 0xFE) return {Told::broken, 0};
    if (top > 0xFA) return {Told::undefined, 0};
    return {Told::value, static_cast<std::int64_t>(bytes_at(data, count))};
}

// NMEA 2000: the highest of the range is no value, the next one down broken, the third kept for later.
constexpr Field below_top(std::int64_t raw, std::int64_t top) {
    if (raw == top) return {Told::nothing, 0};
    if (raw == top - 1) return {Told::broken, 0};
    if (raw == top - 2) return {Told::undefined, 0};
    return {Told::value, raw};
}
// 1 to 4 bytes
constexpr Field nmea2000_field(const std::uint8_t* data, int count) {
    return below_top(static_cast<std::int64_t>(bytes_at(data, count)), (std::int64_t(1) << (8 * count)) - 1);
}
// 1 to 8 bytes
constexpr Field nmea2000_signed_field(const std::uint8_t* data, int count) {
    const auto top = static_cast<std::int64_t>((std::uint64_t(1) << (8 * count - 1)) - 1);
    return below_top(signed_bytes_at(data, count), top);
}

}  // namespace podrate::bus
