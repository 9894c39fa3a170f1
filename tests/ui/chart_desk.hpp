// A stack of charts of the shipped day on a screen that exists in memory only.
#pragma once

#include "input/chart_keys.hpp"
#include "kit/time_series.hpp"
#include "ui/memory_screen.hpp"
#include "ui/shipped_day.hpp"

namespace podrate::ui {

class ChartDesk {
  public:
    ChartDesk(const std::vector<Chart>& charts, float width, float height,
              const Palette& palette = kDayPalette)
        : charts_(charts),
          pictures_(charts.size()),
          palette_(palette),
          window_({0.0, static_cast<double>(shipped_series().last_ms)}),
          screen_(width, height) {}

    void frame() {
        screen_.frame(palette_, [this](Canvas& canvas) {
            const float plot_width = plot_of(canvas, area_of(0), false).w;
            const DaySeries& day = shipped_series();
            const TimeAxis times =
                time_axis(window_, day.origin_us, day.time_zone, time_ticks_that_fit(canvas, plot_width));
            for (std::size_t i = 0; i < charts_.size(); ++i) {
                const bool last = i + 1 == charts_.size();
                draw_time_series(canvas, area_of(i), charts_[i], times, last, window_, pictures_[i]);
                plot_ = plot_of(canvas, area_of(i), last);
            }
        });
    }

    void move_to(float x, float y) {
        // From beside it: a pointer that has only just come has not moved yet.
        ImGui::GetIO().MousePos = {x - 1.0F, y};
        frame();
        ImGui::GetIO().MousePos = {x, y};
        frame();
        frame();
    }
    void drag(float from_x, float to_x, float y) {
        ImGuiIO& io = ImGui::GetIO();
        move_to(from_x, y);
        io.MouseDown[0] = true;
        frame();
        for (int step = 1; step <= 4; ++step) {
            io.MousePos = {from_x + (to_x - from_x) * static_cast<float>(step) / 4.0F, y};
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
    void press(const KeyPress& press) {
        window_.apply(chart_action_of(press));
        frame();
    }
    [[nodiscard]] Image picture() {
        frame();
        return screen_.picture(palette_);
    }

    // Of the lowest chart, after a frame.
    [[nodiscard]] const Box& plot() const { return plot_; }
    [[nodiscard]] TimeWindow& window() { return window_; }
    [[nodiscard]] const ChartPicture& of(std::size_t chart) const { return pictures_[chart]; }
    [[nodiscard]] const std::vector<std::string>& cut() const { return screen_.cut(); }
    [[nodiscard]] double time_at(float x) const {
        const TimeRange& shown = window_.shown();
        return shown.from_ms + static_cast<double>((x - plot_.x) / plot_.w) * shown.span_ms();
    }

  private:
    [[nodiscard]] Box area_of(std::size_t chart) const {
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        const float height = (size.y - 8.0F) / static_cast<float>(charts_.size());
        return Box{8.0F, 8.0F + static_cast<float>(chart) * height, size.x - 16.0F, height - 8.0F};
    }

    std::vector<Chart> charts_;
    std::vector<ChartPicture> pictures_;
    const Palette& palette_;
    TimeWindow window_;
    MemoryScreen screen_;
    Box plot_;
};

// As an agronomist would stack them.
inline std::vector<Chart> usual_charts() {
    const DaySeries& day = shipped_series();
    return {chart_of(day, Measure::load_rate, {}), chart_of(day, Measure::yield, {}),
            chart_of(day, Measure::loss, {}), chart_of(day, Measure::hopper, {}),
            chart_of(day, Measure::speed, {})};
}

}  // namespace podrate::ui
