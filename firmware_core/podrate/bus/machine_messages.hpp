// What ISO 11783-7 and SAE J1939-71 tell of a machine's motion. Layouts read in public descriptions, held
// against the examples in the tests.
#pragma once

#include <cstdint>

#include "podrate/bus/fields.hpp"

namespace podrate::bus {

// Sources conflict on which of 0 and 1 is forward: 1 is, by ISO 11783-7 as remembered. Podrate measures
// speed without its direction, so nothing hangs on it.
enum class Direction : std::uint8_t { reverse = 0, forward = 1, broken = 2, not_available = 3 };

struct MachineSpeed {
    Field speed;     // 0.001 m/s
    Field distance;  // 0.001 m, since some start
    Direction direction = Direction::not_available;
};
MachineSpeed machine_speed(const std::uint8_t (&data)[8]);

struct VehicleDirection {
    Field heading;  // 1/128 degree clockwise from north
    Field speed;    // 1/256 km/h
    Field pitch;    // 1/128 degree above -200; nose up taken as positive (from memory)
};
VehicleDirection vehicle_direction(const std::uint8_t (&data)[8]);

// Nose up and right side down taken as positive (from memory; a sensor mounted the other way round tells
// the opposite).
struct Slope {
    Field pitch;  // 1/32768 degree above -250
    Field roll;   // 1/32768 degree above -250
};
Slope slope(const std::uint8_t (&data)[8]);

// Our own message of the loss sensor and the drum: hits since the sensor's start, 32 bits that count up to
// 0xFAFFFFFF and then from 0; the drum's speed, 16 bits of 0.125 rpm (SAE's usual slot); the mark "PH", so
// that another maker's message of this number is not taken for it.
inline constexpr std::uint32_t kHitsModulus = 0xFB000000U;
inline constexpr std::uint64_t kHitsMark = 'P' | ('H' << 8);
struct Hits {
    bool ours = false;
    Field count;
    Field drum;  // 0.125 rpm
};
Hits hits(const std::uint8_t (&data)[8]);

}  // namespace podrate::bus
