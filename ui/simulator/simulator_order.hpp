// Keys of the simulator, and what each orders. Free of any window.
#pragma once

#include <cstddef>
#include <cstdint>

namespace podrate::ui {

enum class SimulatorKey : std::uint8_t {
    none,
    up,
    down,
    left,
    right,
    space,
    letter_t,
    letter_p,
    letter_s,
    page_up,
    page_down,
    tab,
    digit_0,
    digit_1,
    digit_2,
    digit_3,
    digit_4,
    digit_5,
    digit_6,
    digit_7,
    digit_8,
    digit_9,
};

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

// The digits are faults: 1 the first, 0 the tenth.
SimulatorOrder simulator_order_of(SimulatorKey key);

}  // namespace podrate::ui
