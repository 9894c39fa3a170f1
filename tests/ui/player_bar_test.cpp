#include "player/player_bar.hpp"

#include <imgui.h>

#include <catch2/catch.hpp>

#include "app/scene.hpp"
#include "ui/shipped_recording.hpp"

using namespace podrate::ui;

namespace {

constexpr float kWidth = 1280;
constexpr float kHeight = 800;

// A session on a screen that exists in memory only, clicked as Dear ImGui 1.86 wants it: move, press,
// release.
class Desk {
  public:
    Desk() : context_(ImGui::CreateContext()), session_(shipped_recording()) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {kWidth, kHeight};
        io.DeltaTime = 0.05F;
        fonts_ = load_fonts(*io.Fonts, 1.0F, font_candidates_regular(), font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
    }
    ~Desk() { ImGui::DestroyContext(context_); }
    Desk(const Desk&) = delete;
    Desk& operator=(const Desk&) = delete;

    void frame() {
        ImGui::NewFrame();
        draw_scene(session_, fonts_, kWidth, kHeight, true);
        ImGui::Render();
    }
    void click(float x, float y) {
        ImGuiIO& io = ImGui::GetIO();
        io.MousePos = {x, y};
        frame();
        frame();
        io.MouseDown[0] = true;
        frame();
        io.MouseDown[0] = false;
        frame();
        frame();
    }
    Session& session() { return session_; }

  private:
    ImGuiContext* context_;
    Session session_;
    Fonts fonts_;
};

}  // namespace

TEST_CASE("A touch takes the cautions down and does nothing else") {
    Desk desk;
    desk.frame();
    CHECK(desk.session().cautions_up());
    desk.click(60, 768);  // where Play will be
    CHECK_FALSE(desk.session().cautions_up());
    CHECK_FALSE(desk.session().playback().playing());
}

TEST_CASE("The strip's buttons and its track work by mouse") {
    Desk desk;
    desk.session().skip_cautions();
    desk.click(60, 768);
    CHECK(desk.session().playback().playing());
    desk.click(60, 768);
    CHECK_FALSE(desk.session().playback().playing());
    desk.click(302, 768);
    CHECK(desk.session().playback().rate() == 2);
    desk.click(149, 768);
    CHECK(desk.session().playback().rate() == 1);
    desk.click(1217, 768);
    CHECK(desk.session().night());
    desk.click(953, 768);
    CHECK(desk.session().help_up());
    desk.click(953, 768);  // anywhere: the help closes, nothing else happens
    CHECK_FALSE(desk.session().help_up());
    desk.click(1068, 768);
    CHECK(desk.session().machine() == 1);
    desk.click(628, 768);  // the track's middle
    CHECK(desk.session().playback().share() == Approx(0.5).margin(0.01));
}
