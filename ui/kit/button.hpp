// A button with words: for mouse and finger; keys do the same elsewhere.
#pragma once

#include "kit/canvas.hpp"

namespace podrate::ui {

// Draws into an open Dear ImGui window. `id`: its name there. `on`: set apart as chosen. True where it was
// pressed.
bool button(Canvas& canvas, const Box& box, const char* id, const std::string& words, bool on = false);

}  // namespace podrate::ui
