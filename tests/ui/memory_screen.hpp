// A screen that exists in memory only: Dear ImGui with fonts, and what was drawn as a picture.
#pragma once

#include <imgui.h>

#include <catch2/catch.hpp>

#include "kit/canvas.hpp"
#include "raster/rasteriser.hpp"

namespace podrate::ui {

class MemoryScreen {
  public:
    MemoryScreen(float width, float height, float scale = 1.0F)
        : scale_(scale), context_(ImGui::CreateContext()) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {width, height};
        io.DeltaTime = 0.05F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        fonts_ = load_fonts(*io.Fonts, unit(), font_candidates_regular(), font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
    }
    ~MemoryScreen() { ImGui::DestroyContext(context_); }
    MemoryScreen(const MemoryScreen&) = delete;
    MemoryScreen& operator=(const MemoryScreen&) = delete;

    [[nodiscard]] const Fonts& fonts() const { return fonts_; }

    // One frame of a window as large as the screen, which `draw` fills.
    template <class Draw>
    void frame(const Palette& palette, Draw draw) {
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize(ImGui::GetIO().DisplaySize);
        ImGui::Begin("screen", nullptr,
                     ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                         ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoNav);
        Canvas canvas(*ImGui::GetWindowDrawList(), palette, fonts_, unit());
        draw(canvas);
        cut_ = canvas.cut();
        ImGui::End();
        ImGui::Render();
    }
    // Words of the last frame that found no room.
    [[nodiscard]] const std::vector<std::string>& cut() const { return cut_; }

    // The last frame.
    [[nodiscard]] Image picture(const Palette& palette) const {
        const ImGuiIO& io = ImGui::GetIO();
        return rasterise(*ImGui::GetDrawData(), *io.Fonts, static_cast<int>(io.DisplaySize.x),
                         static_cast<int>(io.DisplaySize.y), palette.ground);
    }

  private:
    [[nodiscard]] float unit() const {
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        return unit_for(size.x, size.y, scale_);
    }

    float scale_;
    ImGuiContext* context_;
    Fonts fonts_;
    std::vector<std::string> cut_;
};

}  // namespace podrate::ui
