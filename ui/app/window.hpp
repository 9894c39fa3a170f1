// The window: GLFW, OpenGL 3 and the event loop.
#pragma once

#include <string>

#include "model/session.hpp"

namespace podrate::ui {

struct WindowOptions {
    int width_px = 1280;
    int height_px = 800;
};

// Runs until the window is closed. Returns false where no window can be had, with the reason in `why`.
bool run_window(Session& session, const WindowOptions& options, std::string& why);

}  // namespace podrate::ui
