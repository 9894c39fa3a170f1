#include "podrate/parameter_bytes.hpp"

#include "podrate/retained/bytes.hpp"

namespace podrate {

namespace {

constexpr std::uint32_t kBlockMagic = 0x4D525050;  // "PPRM"

}  // namespace

void pack_parameters(const Parameters& parameters, std::uint8_t* bytes) {
    ByteWriter writer(bytes);
    writer.word(kBlockMagic, 4);
    writer.word(kParameterVersion, 2);
    writer.word(kParameterCount, 2);
    writer.word(kParameterTableMark, 4);
    for (const ParameterInfo& info : kParameterTable)
        writer.word(math::bits_of(static_cast<float>(parameters.*info.member)), 4);
    writer.word(crc32(bytes, writer.size()), 4);
}

ParameterRead unpack_parameters(const std::uint8_t* bytes, std::size_t count, Parameters& parameters) {
    ByteReader reader(bytes, count);
    const bool ours = reader.word(4) == kBlockMagic;
    const bool same_version = reader.word(2) == kParameterVersion;
    const auto values = static_cast<std::size_t>(reader.word(2));
    const bool same_table = reader.word(4) == kParameterTableMark;
    if (!reader.good() || !ours || count != 16 + 4 * values) return ParameterRead::damaged;
    ByteReader tail(bytes + count - 4, 4);
    if (tail.word(4) != crc32(bytes, count - 4)) return ParameterRead::damaged;
    if (!same_version || !same_table || values != kParameterCount) return ParameterRead::other_table;
    Parameters read;
    for (const ParameterInfo& info : kParameterTable) {
        const auto value = math::from_bits<float>(static_cast<std::uint32_t>(reader.word(4)));
        // Compared as the floats that they were written as. NaN lies between no two numbers.
        const bool inside = value >= static_cast<float>(info.low) && value <= static_cast<float>(info.high);
        if (!inside) return ParameterRead::out_of_range;
        read.*info.member = static_cast<Real>(value);
    }
    parameters = read;
    return ParameterRead::good;
}

}  // namespace podrate
