// The window: GLFW, OpenGL 3 and the event loop.
#pragma once

#include <string>

#include "model/session.hpp"

namespace podrate::ui {

// Runs until the window is closed; `size` is then what it was last. Returns false where no window can be had,
// with the reason in `why`.
bool run_window(Session& session, WindowSize& size, std::string& why);

}  // namespace podrate::ui
