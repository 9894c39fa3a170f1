// The words people read, in one place.
#pragma once

#include <string>

#include "podrate/work/work_state.hpp"

namespace podrate::ui {

// "Harvesting", "Waiting to tip", ...
const char* word_for(WorkState state);

// What is wrong and what to check, for the first fault that is up; empty where none is.
std::string fault_line(std::uint8_t faults);

inline constexpr const char* kTipCaution =
    "Before tipping: look up for power lines, stand level, nobody near. Follow the operator's manual.";

inline constexpr const char* kStartCautions[] = {
    "Eyes on the field. Read this screen at a glance; touch it only while the machine stands.",
    "Tip on level ground, clear of overhead power lines and of people.",
    "Stop the engine and wait until drum and reel stand still before going near them.",
    "Mind slopes, and the rules of the road on the way between fields.",
    "The operator's manual and local rules come first. These figures are estimates.",
};

}  // namespace podrate::ui
