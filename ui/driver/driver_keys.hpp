// Which key does what while a day is played in the driver's view.
#pragma once

#include "input/key.hpp"
#include "model/session.hpp"

namespace podrate::ui {

Action driver_action_of(const KeyPress& press);

}  // namespace podrate::ui
