#include "simulator/simulator_order.hpp"

#include "synth/hand/hand_fault.hpp"

namespace podrate::ui {

static_assert(sim::kHandFaultCount == 10, "a digit for each");

SimulatorOrder simulator_order_of(SimulatorKey key) {
    switch (key) {
        case SimulatorKey::none: return {};
        case SimulatorKey::up: return {SimulatorAction::faster};
        case SimulatorKey::down: return {SimulatorAction::slower};
        case SimulatorKey::left: return {SimulatorAction::halt};
        case SimulatorKey::right: return {SimulatorAction::go_on};
        case SimulatorKey::space: return {SimulatorAction::turn_reel};
        case SimulatorKey::letter_t: return {SimulatorAction::tip};
        case SimulatorKey::letter_p: return {SimulatorAction::pause};
        case SimulatorKey::letter_s: return {SimulatorAction::save};
        case SimulatorKey::page_up: return {SimulatorAction::raise_pace};
        case SimulatorKey::page_down: return {SimulatorAction::lower_pace};
        case SimulatorKey::tab: return {SimulatorAction::other_page};
        case SimulatorKey::digit_0: return {SimulatorAction::turn_fault, sim::kHandFaultCount - 1};
        default: break;
    }
    return {SimulatorAction::turn_fault,
            static_cast<std::size_t>(key) - static_cast<std::size_t>(SimulatorKey::digit_1)};
}

}  // namespace podrate::ui
