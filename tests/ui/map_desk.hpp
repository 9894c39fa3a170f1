// A map on a screen that exists in memory only, driven by mouse as Dear ImGui 1.86 wants it.
#pragma once

#include "map/map_view.hpp"
#include "ui/memory_screen.hpp"

namespace podrate::ui {

class MapDesk {
  public:
    MapDesk(const MapModel& model, float width, float height, const Palette& palette = kDayPalette,
            const Speech& say = {}, float scale = 1.0F)
        : model_(model),
          state_(model),
          palette_(palette),
          say_(say),
          screen_(width, height, scale),
          area_{0, 0, width, height} {}

    void frame() {
        screen_.frame(palette_, [this](Canvas& canvas) {
            if (const auto clicked = draw_map(canvas, area_, model_, state_, moment, say_))
                clicked_ = clicked;
            plot_ = map_plot_of(canvas, area_, model_, state_.topic, say_);
        });
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
        return screen_.picture(palette_);
    }

    [[nodiscard]] const Box& plot() const { return plot_; }
    [[nodiscard]] MapState& state() { return state_; }
    [[nodiscard]] const std::vector<std::string>& cut() const { return screen_.cut(); }
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
    MemoryScreen screen_;
    Box area_;
    Box plot_;
    std::optional<TimeUs> clicked_;
};

}  // namespace podrate::ui
