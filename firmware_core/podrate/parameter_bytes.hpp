// A parameter block as bytes, to be kept or sent to a controller: a fixed layout, little end first.
#pragma once

#include <cstddef>
#include <cstdint>

#include "podrate/parameters.hpp"
#include "podrate/retained/crc32.hpp"

namespace podrate {

// The CRC-32 of a word and the 0 that ends it, going on from `before`.
constexpr std::uint32_t mark_with(const char* word, std::uint32_t before) {
    for (const char* c = word; *c != '\0'; ++c) {
        const std::uint8_t byte[] = {static_cast<std::uint8_t>(*c)};
        before = crc32(byte, 1, before);
    }
    const std::uint8_t end[] = {0};
    return crc32(end, 1, before);
}

// Over name and unit of each parameter, in the table's order: two programs that have the same mark mean the
// same by the same place in a block.
constexpr std::uint32_t parameter_table_mark() {
    std::uint32_t mark = 0;
    for (const ParameterInfo& info : kParameterTable) mark = mark_with(info.unit, mark_with(info.name, mark));
    return mark;
}

inline constexpr std::uint32_t kParameterTableMark = parameter_table_mark();

// "PPRM", version (2), count (2), table's mark (4), each value as a float (4), CRC-32 of all that (4).
inline constexpr std::size_t kParameterBytes = 12 + 4 * kParameterCount + 4;

void pack_parameters(const Parameters& parameters, std::uint8_t* bytes);  // kParameterBytes

enum class ParameterRead : std::uint8_t {
    good,
    damaged,       // too short or long, other bytes than were written, or no block at all
    other_table,   // whole, but of a program that has other parameters
    out_of_range,  // whole, but a value is outside its range or NaN
};

// `parameters` changes only where all is good.
ParameterRead unpack_parameters(const std::uint8_t* bytes, std::size_t count, Parameters& parameters);

}  // namespace podrate
