// The faults that a learner may bring about, each of a kind that scenarios know.
#pragma once

#include <cstddef>

#include "synth/scenario/fault.hpp"

namespace podrate::sim {

struct HandFault {
    FaultKind kind;
    int cell;     // as of ScenarioFault
    double size;  // common practice, no source
};

// Each but the last lasts until it is taken away; that one spoils the next tip.
inline constexpr HandFault kHandFaults[] = {
    {FaultKind::weight_stuck, 0, 0.0},    // the whole scale repeats its reading
    {FaultKind::weight_stuck, 2, 0.0},    // one cell does
    {FaultKind::weight_open, 3, 1500.0},  // one cell is torn off
    {FaultKind::weight_dropout, 0, 0.0},  // the weight shows nothing
    {FaultKind::speed_zero, 0, 0.0},      // the speed shows standing
    {FaultKind::tilt_dead, 0, 0.0},       // the tilt shows level
    {FaultKind::drum_blocked, 0, 0.0},    // nothing comes out of the drum
    {FaultKind::hopper_leak, 0, 0.4},     // the hopper's door leaks
    {FaultKind::rows_dropped, 0, 0.0},    // nothing comes from the machine
    {FaultKind::tip_in_part, 0, 500.0},   // the next tip leaves peas behind
};
inline constexpr std::size_t kHandFaultCount = sizeof kHandFaults / sizeof kHandFaults[0];

}  // namespace podrate::sim
