// Numbers as bytes, little end first, whatever the processor.
#pragma once

#include <cstddef>
#include <cstdint>

#include "podrate/math/compensated_sum.hpp"
#include "podrate/math/elementary.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// What a sum may have lost to rounding: a total of a hundred thousand t has lost less.
inline constexpr Real kMostLost = Real(16);

// A number that a reader may believe.
struct Bounds {
    Real low;
    Real high;
};

// The three below take the same calls, so that one list of fields (retained/fields.hpp) writes, reads and
// measures.
class ByteWriter {
  public:
    explicit ByteWriter(std::uint8_t* bytes) : bytes_(bytes) {}

    void word(std::uint64_t value, int count) {
        for (int i = 0; i < count; ++i)
            bytes_[at_++] = static_cast<std::uint8_t>(value >> (8U * unsigned(i)));
    }
    void flag(const bool& value) { word(value ? 1U : 0U, 1); }
    void byte(const std::uint8_t& value, std::uint8_t) { word(value, 1); }
    void half(const std::uint16_t& value) { word(value, 2); }
    void count(const std::uint32_t& value) { word(value, 4); }
    void angle(const std::int32_t& value, std::int32_t) { word(static_cast<std::uint32_t>(value), 4); }
    void moment(const TimeUs& value) { word(static_cast<std::uint64_t>(value), 8); }
    void real(const Real& value, Bounds) { word(math::bits_of(static_cast<float>(value)), 4); }
    void sum(const math::CompensatedSum<Real>& value, Bounds bounds) {
        real(value.sum(), bounds);
        real(value.lost(), bounds);
    }
    [[nodiscard]] std::size_t size() const { return at_; }

  private:
    std::uint8_t* bytes_;
    std::size_t at_ = 0;
};

class ByteCounter {
  public:
    constexpr void flag(const bool&) { size_ += 1; }
    constexpr void byte(const std::uint8_t&, std::uint8_t) { size_ += 1; }
    constexpr void half(const std::uint16_t&) { size_ += 2; }
    constexpr void count(const std::uint32_t&) { size_ += 4; }
    constexpr void angle(const std::int32_t&, std::int32_t) { size_ += 4; }
    constexpr void moment(const TimeUs&) { size_ += 8; }
    constexpr void real(const Real&, Bounds) { size_ += 4; }
    constexpr void sum(const math::CompensatedSum<Real>&, Bounds) { size_ += 8; }
    [[nodiscard]] constexpr std::size_t size() const { return size_; }

  private:
    std::size_t size_ = 0;
};

// Reads no further than `count` bytes, and says afterwards whether all was there and within its bounds.
class ByteReader {
  public:
    ByteReader(const std::uint8_t* bytes, std::size_t count) : bytes_(bytes), count_(count) {}

    std::uint64_t word(int count);
    void flag(bool& value);
    void byte(std::uint8_t& value, std::uint8_t most);
    void half(std::uint16_t& value) { value = static_cast<std::uint16_t>(word(2)); }
    void count(std::uint32_t& value) { value = static_cast<std::uint32_t>(word(4)); }
    void angle(std::int32_t& value, std::int32_t most);
    void moment(TimeUs& value);
    void real(Real& value, Bounds bounds);
    void sum(math::CompensatedSum<Real>& value, Bounds bounds);

    [[nodiscard]] bool good() const { return good_; }

  private:
    const std::uint8_t* bytes_;
    std::size_t count_;
    std::size_t at_ = 0;
    bool good_ = true;
};

}  // namespace podrate
