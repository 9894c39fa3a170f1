// The messages that are understood: parameter group numbers, entries of the data dictionary, resolutions.
#pragma once

#include <cstdint>

namespace podrate::bus {

namespace pgn {
inline constexpr std::uint32_t kProcessData = 0xCB00;      // 51968, ISO 11783-10
inline constexpr std::uint32_t kAddressClaim = 0xEE00;     // 60928, SAE J1939-81, ISO 11783-5
inline constexpr std::uint32_t kSlope = 61481;             // SAE J1939-71, slope sensor information 2
inline constexpr std::uint32_t kWheelSpeed = 65096;        // ISO 11783-7, wheel-based speed and distance
inline constexpr std::uint32_t kGroundSpeed = 65097;       // ISO 11783-7, ground-based speed and distance
inline constexpr std::uint32_t kVehicleDirection = 65256;  // SAE J1939-71, vehicle direction and speed
inline constexpr std::uint32_t kSystemTime = 126992;       // NMEA 2000, like all below
inline constexpr std::uint32_t kAttitude = 127257;
inline constexpr std::uint32_t kPositionRapid = 129025;
inline constexpr std::uint32_t kCourseSpeed = 129026;
inline constexpr std::uint32_t kGnssPosition = 129029;  // the one that comes as a fast packet
inline constexpr std::uint32_t kTimeDate = 129033;
// Our own, from the numbers that SAE J1939-21 leaves to makers (Proprietary B, 0xFF00 to 0xFFFF).
inline constexpr std::uint32_t kHits = 0xFF50;
}  // namespace pgn

// ISO 11783-11 data dictionary, as in npm's isoxml 1.11.2
namespace ddi {
inline constexpr std::uint16_t kMassContent = 75;  // "Actual Mass Content", g, resolution 1
inline constexpr std::uint16_t kWorkState =
    141;  // "Actual Work State", no unit: 0 off, 1 on, 2 broken, 3 not fitted
}  // namespace ddi

}  // namespace podrate::bus
