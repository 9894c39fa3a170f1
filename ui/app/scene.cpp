#include "app/scene.hpp"

#include <imgui.h>

#include "bench/bench_view.hpp"
#include "caution/caution_view.hpp"
#include "caution/unsaved_view.hpp"
#include "day/day_view.hpp"
#include "driver/driver_view.hpp"
#include "driver/touch_size.hpp"
#include "help/help_view.hpp"
#include "kit/canvas.hpp"
#include "loading/loading_view.hpp"
#include "player/player_bar.hpp"
#include "simulator/simulator_strip.hpp"

namespace podrate::ui {

namespace {

bool touched(const char* id, const Box& whole) {
    ImGui::SetCursorScreenPos({whole.x, whole.y});
    return ImGui::InvisibleButton(id, {whole.w, whole.h});
}

HelpKeys help_keys_of(const Session& session) {
    if (session.simulator() != nullptr) return HelpKeys::simulator;
    if (session.live()) return HelpKeys::live;
    if (session.view() == View::bench) return HelpKeys::bench;
    return session.view() == View::day ? HelpKeys::day : HelpKeys::player;
}

std::string name_of(const DayLoader& opening) {
    return opening.folder().filename().string();
}

void draw_opening_strip(Canvas& canvas, Box whole, const Session& session) {
    const DayLoader& opening = *session.opening();
    draw_opening_line(canvas, whole.take_bottom(opening_line_height(canvas)), name_of(opening),
                      opening.share(), session.speech());
}

float touch_px_of(const Session& session, const Box& area) {
    if (session.px_per_mm() > 0.0) return touch_side_px(session.px_per_mm());
    return touch_side_px(assumed_px_per_mm(static_cast<int>(area.w), static_cast<int>(area.h)));
}

void draw_driver(const Canvas& canvas, Box area, Session& session, bool player) {
    Canvas strip = canvas;
    if (player && !session.live())
        draw_player_bar(strip, area.take_bottom(player_bar_height(canvas, area.w)), session);
    const auto scale = static_cast<float>(session.settings().scale);
    const float touch_px = session.live() ? touch_px_of(session, area) : 0.0F;
    Canvas smaller(strip.list(), canvas.palette(), canvas.fonts(),
                   driver_unit(canvas, area.w, area.h, scale, touch_px));
    if (const auto order = draw_driver_view(smaller, area, session.figures(), touch_px))
        session.answer(*order);
}

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
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize({width_px, height_px});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0F);
    ImGui::Begin("scene", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoNav);
    Canvas canvas(*ImGui::GetWindowDrawList(), session.palette(), fonts,
                  scene_unit(session, width_px, height_px));
    const Box whole = {0, 0, width_px, height_px};
    if (session.asks_unsaved()) {
        draw_unsaved_view(canvas, whole, session.unsaved(), *session.asks_unsaved(), session.speech());
        if (touched("back", whole)) session.stay();
    } else if (session.cautions_up()) {
        draw_caution_view(canvas, whole, session.speech());
        if (session.opening() != nullptr) draw_opening_strip(canvas, whole, session);
        if (touched("go on", whole)) session.apply(Action::play_or_pause);
    } else if (session.help_up()) {
        draw_help_view(canvas, whole, session.speech(), help_keys_of(session));
        if (touched("back", whole)) session.apply(Action::other_key);
    } else if (!session.refusal().empty()) {
        draw_refusal_view(canvas, whole, session.refusal(), session.speech());
        if (touched("back", whole)) session.press({Key::enter});
    } else if (const DayLoader* opening = session.opening()) {
        draw_opening_view(canvas, whole, name_of(*opening), opening->share(), session.speech());
    } else if (session.simulator() != nullptr) {
        draw_simulator(session, canvas, whole);
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
