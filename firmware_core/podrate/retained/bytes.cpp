#include "podrate/retained/bytes.hpp"

namespace podrate {

std::uint64_t ByteReader::word(int count) {
    if (count_ - at_ < static_cast<std::size_t>(count)) {
        good_ = false;
        return 0;
    }
    std::uint64_t value = 0;
    for (int i = 0; i < count; ++i) value |= static_cast<std::uint64_t>(bytes_[at_++]) << (8U * unsigned(i));
    return value;
}

void ByteReader::flag(bool& value) {
    const std::uint64_t read = word(1);
    if (read > 1) good_ = false;
    value = read == 1;
}

void ByteReader::byte(std::uint8_t& value, std::uint8_t most) {
    value = static_cast<std::uint8_t>(word(1));
    if (value > most) good_ = false;
}

void ByteReader::angle(std::int32_t& value, std::int32_t most) {
    const auto bits = static_cast<std::uint32_t>(word(4));
    // Two's complement by hand: before C++20 a cast of what does not fit is the compiler's choice.
    value = bits <= 0x7FFFFFFFU ? static_cast<std::int32_t>(bits) : -static_cast<std::int32_t>(~bits) - 1;
    if (value > most || value < -most) good_ = false;
}

void ByteReader::moment(TimeUs& value) {
    const std::uint64_t bits = word(8);
    if (bits > static_cast<std::uint64_t>(kLatestUs)) good_ = false;
    value = good_ ? static_cast<TimeUs>(bits) : 0;
}

// Neither NaN nor an infinity lies between two numbers.
void ByteReader::real(Real& value, Bounds bounds) {
    const auto read = static_cast<Real>(math::from_bits<float>(static_cast<std::uint32_t>(word(4))));
    const bool inside = read >= bounds.low && read <= bounds.high;
    if (!inside) good_ = false;
    value = inside ? read : Real(0);
}

void ByteReader::sum(math::CompensatedSum<Real>& value, Bounds bounds) {
    Real sum = Real(0);
    Real lost = Real(0);
    real(sum, bounds);
    real(lost, {-kMostLost, kMostLost});
    value = {sum, lost};
}

}  // namespace podrate
