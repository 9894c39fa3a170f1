// Puts the views together for one frame.
#pragma once

#include "model/session.hpp"
#include "theme/fonts.hpp"

namespace podrate::ui {

// The unit that type is made for on a screen of that size.
float scene_unit(const Session& session, float width_px, float height_px);

// Between ImGui::NewFrame() and ImGui::Render(). `player`: with the strip that plays the day.
void draw_scene(Session& session, const Fonts& fonts, float width_px, float height_px, bool player);

}  // namespace podrate::ui
