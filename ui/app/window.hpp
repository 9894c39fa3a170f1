// The window: GLFW, OpenGL 3 and the event loop.
#pragma once

#include <string>

#include "app/frame_book.hpp"
#include "model/session.hpp"

namespace podrate::ui {

// Opens that day's folder, or shows what the session has where it is empty, and runs until the window is
// closed; `size` is then what it was last. Returns false where no window can be had,
// with the reason in `why`.
// `book` is told of each frame.
bool run_window(Session& session, const std::filesystem::path& folder, WindowSize& size, FrameBook& book,
                std::string& why);

}  // namespace podrate::ui
