#include "podrate/bus/machine_messages.hpp"

namespace podrate::bus {

MachineSpeed machine_speed(const std::uint8_t (&data)[8]) {
    return {j1939_field(data, 2), j1939_field(data + 2, 4), static_cast<Direction>(data[7] & 3U)};
}

VehicleDirection vehicle_direction(const std::uint8_t (&data)[8]) {
    return {j1939_field(data, 2), j1939_field(data + 2, 2), j1939_field(data + 4, 2)};
}

Slope slope(const std::uint8_t (&data)[8]) {
    Slope slope{j1939_field(data, 3), j1939_field(data + 3, 3)};
    // Byte 7: compensation of the pitch, its figure of merit, the same of the roll; two bits each. A figure
    // of 2 is an error.
    constexpr unsigned kError = 2;
    if (((data[6] >> 2) & 3U) == kError) slope.pitch = {Told::broken, 0};
    if (((data[6] >> 6) & 3U) == kError) slope.roll = {Told::broken, 0};
    return slope;
}

Hits hits(const std::uint8_t (&data)[8]) {
    return {bytes_at(data + 6, 2) == kHitsMark, j1939_field(data, 4), j1939_field(data + 4, 2)};
}

}  // namespace podrate::bus
