// A map on a screen that exists in memory only, driven by mouse as Dear ImGui 1.86 wants it.
#pragma once

#include <imgui.h>

#include <catch2/catch.hpp>

#include "map/map_view.hpp"
#include "raster/rasteriser.hpp"

namespace podrate::ui {

class MapDesk {
  public:
    MapDesk(const MapModel& model, float width, float height, const Palette& palette = kDayPalette,
            const Speech& say = {}, float scale = 1.0F)
        : model_(model),
          state_(model),
          palette_(palette),
          say_(say),
          unit_(unit_for(width, height, scale)),
          context_(ImGui::CreateContext()) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {width, height};
        io.DeltaTime = 0.05F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        fonts_ = load_fonts(*io.Fonts, unit_, font_candidates_regular(), font_candidates_bold());
        REQUIRE(io.Fonts->Build());
        io.Fonts->SetTexID(nullptr);
        area_ = {0, 0, width, height};
    }
    ~MapDesk() { ImGui::DestroyContext(context_); }
    MapDesk(const MapDesk&) = delete;
    MapDesk& operator=(const MapDesk&) = delete;

    void frame() {
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize(ImGui::GetIO().DisplaySize);
        ImGui::Begin("desk", nullptr,
                     ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                         ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoNav);
        Canvas canvas(*ImGui::GetWindowDrawList(), palette_, fonts_, unit_);
        if (const auto clicked = draw_map(canvas, area_, model_, state_, moment, say_)) clicked_ = clicked;
        plot_ = map_plot_of(canvas, area_, model_, state_.topic, say_);
        cut_ = canvas.cut();
        ImGui::End();
        ImGui::Render();
    }

    void move_to(MapPixel pixel) {
        ImGui::GetIO().MousePos = screen(pixel);
        frame();
        frame();
    }
    void click(MapPixel pixel) { drag(pixel, pixel); }
    void drag(MapPixel from, MapPixel to) {
        move_to(from);
        ImGuiIO& io = ImGui::GetIO();
        io.MouseDown[0] = true;
        frame();
        for (int step = 1; step <= 4; ++step) {
            io.MousePos = screen({from.x + (to.x - from.x) * step / 4, from.y + (to.y - from.y) * step / 4});
            frame();
        }
        io.MouseDown[0] = false;
        frame();
        frame();
    }
    void wheel(float turns) {
        ImGui::GetIO().MouseWheel = turns;
        frame();
        frame();
    }
    [[nodiscard]] Image picture() {
        frame();
        const ImGuiIO& io = ImGui::GetIO();
        return rasterise(*ImGui::GetDrawData(), *io.Fonts, static_cast<int>(io.DisplaySize.x),
                         static_cast<int>(io.DisplaySize.y), palette_.ground);
    }

    [[nodiscard]] const Box& plot() const { return plot_; }
    [[nodiscard]] MapState& state() { return state_; }
    [[nodiscard]] const std::vector<std::string>& cut() const { return cut_; }
    [[nodiscard]] std::optional<TimeUs> take_clicked() { return std::exchange(clicked_, std::nullopt); }

    MapMoment moment;

  private:
    [[nodiscard]] ImVec2 screen(MapPixel pixel) const {
        return {plot_.x + static_cast<float>(pixel.x), plot_.y + static_cast<float>(pixel.y)};
    }

    const MapModel& model_;
    MapState state_;
    const Palette& palette_;
    Speech say_;
    float unit_;
    ImGuiContext* context_;
    Fonts fonts_;
    Box area_;
    Box plot_;
    std::vector<std::string> cut_;
    std::optional<TimeUs> clicked_;
};

}  // namespace podrate::ui
