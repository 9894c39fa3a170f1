// One row of a machine's log.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::sim {

enum class Column : std::uint8_t {
    unix_s,
    speed_mps,
    hopper_kg,
    cell1_kg,
    cell2_kg,
    cell3_kg,
    cell4_kg,
    pitch_deg,
    roll_deg,
    lat_deg,
    lon_deg,
    heading_deg,
    reel_on,
    drum_rpm,
    loss_hits,
    unknown,
};

inline constexpr int kColumns = static_cast<int>(Column::unknown);

// "unix_s", "speed_mps", ...
const char* name_of(Column column);

struct LogRow {
    std::uint64_t line = 0;
    TimeUs time_us = 0;
    double value[kColumns] = {};
    bool has[kColumns] = {};  // false: no new sample
    bool lone = false;        // one sample of a bus: others of the same moment are rows of their own

    [[nodiscard]] bool holds(Column column) const { return has[static_cast<int>(column)]; }
    [[nodiscard]] bool holds_weight() const { return holds(Column::hopper_kg) || holds(Column::cell1_kg); }
    [[nodiscard]] double operator[](Column column) const { return value[static_cast<int>(column)]; }
};

}  // namespace podrate::sim
