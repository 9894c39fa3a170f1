// A run's whole input as bytes, little-endian: parameters first, then every sample in the order of feeding.
#pragma once

#include <cstdint>
#include <cstring>

#include "podrate/parameters.hpp"
#include "podrate/sample.hpp"

namespace podrate::test {

static_assert(__BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__, "the stream is read as it lies in memory");

struct StreamHeader {
    std::uint32_t magic;
    std::uint32_t parameter_version;
    std::uint32_t parameters;  // that many floats follow, in the table's order
    std::uint32_t samples;
};

inline constexpr std::uint32_t kStreamMagic = 0x31535250;  // "PRS1"

struct SampleRecord {
    std::int64_t time_us;
    std::int64_t about_us;
    float value[4];
    std::int32_t lat_e7;
    std::int32_t lon_e7;
    std::uint8_t channel;
    std::uint8_t count;
    std::uint8_t unused[6];
};

static_assert(sizeof(StreamHeader) == 16 && sizeof(SampleRecord) == 48, "no padding, on any target");

inline SampleRecord to_record(const Sample& sample) {
    SampleRecord record = {};
    record.time_us = sample.time_us;
    record.about_us = sample.about_us;
    std::memcpy(record.value, sample.value, sizeof record.value);
    record.lat_e7 = sample.lat_e7;
    record.lon_e7 = sample.lon_e7;
    record.channel = static_cast<std::uint8_t>(sample.channel);
    record.count = sample.count;
    return record;
}

inline Sample to_sample(const SampleRecord& record) {
    Sample sample;
    sample.time_us = record.time_us;
    sample.about_us = record.about_us;
    std::memcpy(sample.value, record.value, sizeof record.value);
    sample.lat_e7 = record.lat_e7;
    sample.lon_e7 = record.lon_e7;
    sample.channel = static_cast<Channel>(record.channel);
    sample.count = record.count;
    return sample;
}

}  // namespace podrate::test
