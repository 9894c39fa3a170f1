// A session on a screen that exists in memory only, used as Dear ImGui 1.86 wants it: move, press, release.
#pragma once

#include "app/scene.hpp"
#include "ui/memory_screen.hpp"
#include "ui/shipped_day.hpp"

namespace podrate::ui {

class SceneDesk {
  public:
    explicit SceneDesk(float width = 1280, float height = 800, const Settings& settings = {})
        : screen_(width, height), session_(shipped_day(), settings) {}
    SceneDesk(LiveSource& live, float width, float height, const Settings& settings = {})
        : screen_(width, height), session_(live, settings) {}

    void frame() { frame(true); }
    void frame_without_strip() { frame(false); }
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
    void wheel(float x, float y, float turns) {
        ImGuiIO& io = ImGui::GetIO();
        io.MousePos = {x, y};
        frame();
        frame();
        io.MouseWheel = turns;
        frame();
        io.MouseWheel = 0.0F;
        frame();
    }
    void press(const KeyPress& press) {
        session_.press(press);
        frame();
    }
    [[nodiscard]] Image picture() {
        frame();
        return screen_.picture(session_.palette());
    }
    [[nodiscard]] Session& session() { return session_; }

  private:
    void frame(bool strip) {
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        ImGui::NewFrame();
        session_.refresh();
        draw_scene(session_, screen_.fonts(), size.x, size.y, strip);
        ImGui::Render();
    }

    MemoryScreen screen_;
    Session session_;
};

}  // namespace podrate::ui
