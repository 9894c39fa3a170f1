#include "input/map_keys.hpp"

namespace podrate::ui {

MapAction map_action_of(const KeyPress& press) {
    switch (press.key) {
        case Key::left: return MapAction::west;
        case Key::right: return MapAction::east;
        case Key::up: return MapAction::north;
        case Key::down: return MapAction::south;
        case Key::plus:
        case Key::page_up: return MapAction::nearer;
        case Key::minus:
        case Key::page_down: return MapAction::farther;
        case Key::a:
        case Key::home: return MapAction::show_all;
        case Key::backspace: return MapAction::undo;
        case Key::z: return press.ctrl ? MapAction::undo : MapAction::none;
        default: return MapAction::none;
    }
}

}  // namespace podrate::ui
