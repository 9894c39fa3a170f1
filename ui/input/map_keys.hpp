// Which key does what to the map.
#pragma once

#include "input/key.hpp"
#include "map/map_window.hpp"

namespace podrate::ui {

// Arrows move, + and - zoom, A shows all, Backspace or Ctrl+Z goes back. MapAction::none where a key asks
// nothing.
MapAction map_action_of(const KeyPress& press);

}  // namespace podrate::ui
