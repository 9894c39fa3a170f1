// A session on a screen that exists in memory only, used as Dear ImGui 1.86 wants it: move, press, release.
#pragma once

#include <imgui.h>

#include <catch2/catch.hpp>

#include "app/scene.hpp"
#include "kit/canvas.hpp"
#include "raster/rasteriser.hpp"
#include "ui/shipped_day.hpp"

namespace podrate::ui {

class SceneDesk {
  public:
    explicit SceneDesk(float width = 1280, float height = 800, const Settings& settings = {})
        : context_(ImGui::CreateContext()), session_(shipped_day(), settings) {
        begin(width, height);
    }
    SceneDesk(LiveSource& live, float width, float height, const Settings& settings = {})
        : context_(ImGui::CreateContext()), session_(live, settings) {
        begin(width, height);
    }
    ~SceneDesk() { ImGui::DestroyContext(context_); }
    SceneDesk(const SceneDesk&) = delete;
    SceneDesk& operator=(const SceneDesk&) = delete;

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
        const ImGuiIO& io = ImGui::GetIO();
        return rasterise(*ImGui::GetDrawData(), *io.Fonts, static_cast<int>(io.DisplaySize.x),
                         static_cast<int>(io.DisplaySize.y), session_.palette().ground);
    }
    [[nodiscard]] Session& session() { return session_; }

  private:
    void frame(bool strip) {
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        ImGui::NewFrame();
        session_.refresh();
        draw_scene(session_, fonts_, size.x, size.y, strip);
        ImGui::Render();
    }
    void begin(float width, float height) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {width, height};
        io.DeltaTime = 0.05F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        fonts_ =
            load_fonts(*io.Fonts, unit_for(width, height), font_candidates_regular(), font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
    }

    ImGuiContext* context_;
    Session session_;
    Fonts fonts_;
};

}  // namespace podrate::ui
