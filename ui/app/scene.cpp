#include "app/scene.hpp"

#include <imgui.h>

#include "caution/caution_view.hpp"
#include "driver/driver_view.hpp"
#include "help/help_view.hpp"
#include "kit/canvas.hpp"
#include "player/player_bar.hpp"
#include "simulator/simulator_strip.hpp"

namespace podrate::ui {

namespace {

// The view above, the strip below, dashes round both.
void draw_simulator(Session& session, Canvas& canvas, Box area) {
    const Box whole = area;
    const Box strip = area.take_bottom(simulator_strip_height(canvas, area.w));
    Canvas smaller(canvas.list(), session.palette(), canvas.fonts(),
                   unit_for(area.w, area.h, static_cast<float>(session.settings().scale)));
    draw_driver_view(smaller, area, session.figures());
    draw_simulator_strip(canvas, strip, simulator_figures(*session.simulator(), session.speech()));
    draw_simulator_frame(canvas, whole);
}

}  // namespace

float scene_unit(const Session& session, float width_px, float height_px) {
    const auto scale = static_cast<float>(session.settings().scale);
    return session.simulator() != nullptr ? simulator_unit(width_px, height_px, scale)
                                          : unit_for(width_px, height_px, scale);
}

void draw_scene(Session& session, const Fonts& fonts, float width_px, float height_px, bool player) {
    session.keep_lock();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize({width_px, height_px});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0F);
    ImGui::Begin("scene", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoNav);
    const auto scale = static_cast<float>(session.settings().scale);
    Canvas canvas(*ImGui::GetWindowDrawList(), session.palette(), fonts,
                  scene_unit(session, width_px, height_px));
    Box area = {0, 0, width_px, height_px};
    if (session.cautions_up()) {
        draw_caution_view(canvas, area, session.speech());
        ImGui::SetCursorScreenPos({0, 0});
        if (ImGui::InvisibleButton("go on", {width_px, height_px})) session.apply(Action::play_or_pause);
    } else if (session.help_up()) {
        draw_help_view(canvas, area, session.speech(),
                       session.simulator() != nullptr ? HelpKeys::simulator : HelpKeys::player);
        ImGui::SetCursorScreenPos({0, 0});
        if (ImGui::InvisibleButton("back", {width_px, height_px})) session.apply(Action::other_key);
    } else if (session.simulator() != nullptr) {
        draw_simulator(session, canvas, area);
    } else {
        if (player && !session.live())
            draw_player_bar(canvas, area.take_bottom(player_bar_height(canvas, width_px)), session);
        Canvas smaller(*ImGui::GetWindowDrawList(), session.palette(), fonts,
                       unit_for(area.w, area.h, scale));
        draw_driver_view(smaller, area, session.figures());
    }
    ImGui::End();
    ImGui::PopStyleVar(2);
}

}  // namespace podrate::ui
