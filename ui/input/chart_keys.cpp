#include "input/chart_keys.hpp"

namespace podrate::ui {

ChartAction chart_action_of(const KeyPress& press) {
    switch (press.key) {
        case Key::left: return press.shift ? ChartAction::cursor_back : ChartAction::earlier;
        case Key::right: return press.shift ? ChartAction::cursor_on : ChartAction::later;
        case Key::up:
        case Key::plus: return ChartAction::nearer;
        case Key::down:
        case Key::minus: return ChartAction::farther;
        case Key::page_up: return ChartAction::page_earlier;
        case Key::page_down: return ChartAction::page_later;
        case Key::home: return ChartAction::to_start;
        case Key::end: return ChartAction::to_end;
        case Key::a: return ChartAction::show_all;
        case Key::backspace: return ChartAction::undo;
        case Key::z: return press.ctrl ? ChartAction::undo : ChartAction::none;
        default: return ChartAction::none;
    }
}

}  // namespace podrate::ui
