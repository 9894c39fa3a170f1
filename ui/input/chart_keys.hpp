// Which key does what to charts.
#pragma once

#include "input/key.hpp"
#include "series/time_window.hpp"

namespace podrate::ui {

// Left and right move (with Shift the cursor), up and down zoom, Page up and down, Home and End, A shows all,
// Backspace or Ctrl+Z goes back. ChartAction::none where a key asks nothing.
ChartAction chart_action_of(const KeyPress& press);

}  // namespace podrate::ui
