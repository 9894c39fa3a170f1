// What the simulator's keys order.
#pragma once

#include <cstddef>
#include <cstdint>

#include "input/key.hpp"

namespace podrate::ui {

enum class SimulatorAction : std::uint8_t {
    none,
    faster,
    slower,
    halt,
    go_on,
    turn_reel,
    tip,
    pause,
    raise_pace,
    lower_pace,
    save,
    turn_fault,
    other_page,
};

struct SimulatorOrder {
    SimulatorAction action = SimulatorAction::none;
    std::size_t fault = 0;  // of sim::kHandFaults, with turn_fault
};

// The digits are faults: 1 the first, 0 the tenth. A, S and B are left to alarms, as at a live machine.
SimulatorOrder simulator_order_of(Key key);

}  // namespace podrate::ui
