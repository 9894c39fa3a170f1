#include "simulator/simulator_order.hpp"

#include "synth/hand/hand_fault.hpp"

namespace podrate::ui {

static_assert(sim::kHandFaultCount == 10, "a digit for each");

SimulatorOrder simulator_order_of(Key key) {
    switch (key) {
        case Key::up: return {SimulatorAction::faster};
        case Key::down: return {SimulatorAction::slower};
        case Key::left: return {SimulatorAction::halt};
        case Key::right: return {SimulatorAction::go_on};
        case Key::space: return {SimulatorAction::turn_reel};
        case Key::t: return {SimulatorAction::tip};
        case Key::p: return {SimulatorAction::pause};
        case Key::d: return {SimulatorAction::save};
        case Key::page_up: return {SimulatorAction::raise_pace};
        case Key::page_down: return {SimulatorAction::lower_pace};
        case Key::tab: return {SimulatorAction::other_page};
        default: break;
    }
    const int digit = digit_of(key);
    if (digit < 0) return {};
    return {SimulatorAction::turn_fault, static_cast<std::size_t>(digit == 0 ? 9 : digit - 1)};
}

}  // namespace podrate::ui
