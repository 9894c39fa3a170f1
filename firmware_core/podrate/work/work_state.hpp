// What the machine is doing.
#pragma once

#include <cstdint>

namespace podrate {

enum class WorkState : std::uint8_t {
    harvesting,      // moving, crop taken in
    turning,         // moving in the field, reel off
    paused_in_crop,  // standing, reel on, drum loaded
    waiting,         // standing with a full hopper: for a trailer
    tipping,         // peas leave the hopper, or have just left it
    travelling,      // moving without harvesting, longer or faster than a turn
    stopped,         // standing for any other reason
};

inline constexpr int kWorkStates = 7;

// The word used in files: "harvesting", "paused_in_crop", ...
const char* name_of(WorkState state);

}  // namespace podrate
