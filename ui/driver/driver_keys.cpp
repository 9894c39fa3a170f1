#include "driver/driver_keys.hpp"

namespace podrate::ui {

Action driver_action_of(const KeyPress& press) {
    switch (press.key) {
        case Key::space: return Action::play_or_pause;
        case Key::left: return press.shift ? Action::back_5_min : Action::back_30_s;
        case Key::right: return press.shift ? Action::on_5_min : Action::on_30_s;
        case Key::up: return Action::faster;
        case Key::down: return Action::slower;
        case Key::home: return Action::to_start;
        case Key::end: return Action::to_end;
        case Key::tab:
        case Key::m: return Action::next_machine;
        case Key::a: return Action::note_alarm;
        case Key::s: return Action::put_off_alarm;
        case Key::b: return Action::bring_alarms_back;
        case Key::escape: return Action::quit;
        case Key::none:
        case Key::modifier: return Action::none;
        default: return Action::other_key;
    }
}

}  // namespace podrate::ui
