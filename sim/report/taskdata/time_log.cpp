#include "report/taskdata/time_log.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

constexpr std::int64_t kMsPerDay = 86'400'000;
constexpr std::int64_t kDaysTo1980 = 3652;  // from 1970-01-01
constexpr std::int64_t kLastDay = 65'535;

void append_little_endian(std::string& bytes, std::uint32_t value, int count) {
    for (int i = 0; i < count; ++i) bytes += static_cast<char>(value >> (8 * i) & 0xFFU);
}

}  // namespace

void append_record(std::string& bytes, TimeUs time_us, const LoggedPlace* place,
                   const std::vector<LoggedValue>& values) {
    const std::int64_t ms = std::max(std::int64_t{0}, time_us / 1000 - kDaysTo1980 * kMsPerDay);
    append_little_endian(bytes, static_cast<std::uint32_t>(ms % kMsPerDay), 4);
    append_little_endian(bytes, static_cast<std::uint32_t>(std::min(ms / kMsPerDay, kLastDay)), 2);
    if (place != nullptr) {
        append_little_endian(bytes, static_cast<std::uint32_t>(place->lat_e7), 4);
        append_little_endian(bytes, static_cast<std::uint32_t>(place->lon_e7), 4);
        append_little_endian(bytes, place->status, 1);
    }
    append_little_endian(bytes, static_cast<std::uint32_t>(values.size()), 1);
    for (const LoggedValue& value : values) {
        append_little_endian(bytes, value.entry, 1);
        append_little_endian(bytes, static_cast<std::uint32_t>(value.value), 4);
    }
}

}  // namespace podrate::sim
