#include "app/scene.hpp"

#include <imgui.h>

#include "bench/bench_view.hpp"
#include "caution/caution_view.hpp"
#include "day/day_view.hpp"
#include "driver/driver_view.hpp"
#include "driver/touch_size.hpp"
#include "help/help_view.hpp"
#include "kit/canvas.hpp"
#include "loading/loading_view.hpp"
#include "player/player_bar.hpp"

namespace podrate::ui {

namespace {

bool touched(const char* id, const Box& whole) {
    ImGui::SetCursorScreenPos({whole.x, whole.y});
    return ImGui::InvisibleButton(id, {whole.w, whole.h});
}

std::string name_of(const DayLoader& opening) {
    return opening.folder().filename().string();
}

void draw_opening_strip(Canvas& canvas, Box whole, const Session& session) {
    const DayLoader& opening = *session.opening();
    draw_opening_line(canvas, whole.take_bottom(opening_line_height(canvas)), name_of(opening),
                      opening.share(), session.speech());
}

void draw_driver(const Canvas& canvas, Box area, Session& session, bool player) {
    Canvas strip = canvas;
    if (player && !session.live())
        draw_player_bar(strip, area.take_bottom(player_bar_height(canvas, area.w)), session);
    const auto scale = static_cast<float>(session.settings().scale);
    Canvas smaller(strip.list(), canvas.palette(), canvas.fonts(), unit_for(area.w, area.h, scale));
    if (!session.live()) {
        draw_driver_view(smaller, area, session.figures());
        return;
    }
    const double density = session.px_per_mm() > 0.0
                               ? session.px_per_mm()
                               : assumed_px_per_mm(static_cast<int>(area.w), static_cast<int>(area.h));
    if (const auto order = draw_driver_view(smaller, area, session.figures(), touch_side_px(density)))
        session.answer(*order);
}

}  // namespace

void draw_scene(Session& session, const Fonts& fonts, float width_px, float height_px, bool player) {
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize({width_px, height_px});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0F);
    ImGui::Begin("scene", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoNav);
    const auto scale = static_cast<float>(session.settings().scale);
    Canvas canvas(*ImGui::GetWindowDrawList(), session.palette(), fonts,
                  unit_for(width_px, height_px, scale));
    const Box whole = {0, 0, width_px, height_px};
    if (session.cautions_up()) {
        draw_caution_view(canvas, whole, session.speech());
        if (session.opening() != nullptr) draw_opening_strip(canvas, whole, session);
        if (touched("go on", whole)) session.apply(Action::play_or_pause);
    } else if (session.help_up()) {
        draw_help_view(canvas, whole, session.speech());
        if (touched("back", whole)) session.apply(Action::other_key);
    } else if (!session.refusal().empty()) {
        draw_refusal_view(canvas, whole, session.refusal(), session.speech());
        if (touched("back", whole)) session.press({Key::enter});
    } else if (const DayLoader* opening = session.opening()) {
        draw_opening_view(canvas, whole, name_of(*opening), opening->share(), session.speech());
    } else if (!session.live() && !session.has_day()) {
        draw_nothing_open(canvas, whole, session.speech());
    } else if (session.view() == View::day) {
        session.press(draw_day_view(canvas, whole, session.desk()));
    } else if (session.view() == View::bench) {
        session.press(draw_bench_view(canvas, whole, session.bench()));
    } else {
        draw_driver(canvas, whole, session, player);
    }
    ImGui::End();
    ImGui::PopStyleVar(2);
}

}  // namespace podrate::ui
