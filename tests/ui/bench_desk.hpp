// The bench of the shipped day on a screen that exists in memory only.
#pragma once

#include <chrono>
#include <thread>

#include "bench/bench_view.hpp"
#include "support/temp_folder.hpp"
#include "ui/memory_screen.hpp"
#include "ui/shipped_day.hpp"

namespace podrate::ui {

constexpr std::int64_t kBenchClockS = 1782538800;  // 2026-06-27 05:40 UTC

class BenchDesk {
  public:
    explicit BenchDesk(float width = 1280, float height = 800, const Speech& say = {}, float scale = 1.0F,
                       const Palette& palette = kDayPalette,
                       const std::shared_ptr<const OpenDay>& day = shipped_day())
        : bench_(day, say, {folder_ / "parameters", "A. Miller", [] { return kBenchClockS; }},
                 nullptr),
          palette_(palette),
          screen_(width, height, scale) {}

    void frame() {
        bench_.refresh();
        screen_.frame(palette_, [this](Canvas& canvas) {
            const ImVec2 size = ImGui::GetIO().DisplaySize;
            bench_.press(draw_bench_view(canvas, {0, 0, size.x, size.y}, bench_));
        });
    }

    void press(Key key, bool shift = false) { bench_.press({key, shift, false}); }
    // As a window sends it: the key, then its sign.
    void type(const std::string& signs) {
        for (const char c : signs) {
            press(key_of(c));
            bench_.type(static_cast<char32_t>(static_cast<unsigned char>(c)));
        }
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
    void wheel(float x, float y, float turns) {
        ImGui::GetIO().MousePos = {x, y};
        frame();
        ImGui::GetIO().MouseWheel = turns;
        frame();
        ImGui::GetIO().MouseWheel = 0.0F;
    }
    // Until all that was asked for has come.
    void wait() {
        do {
            for (int i = 0; i < 6000 && bench_.busy(); ++i)
                std::this_thread::sleep_for(std::chrono::milliseconds(2));
            bench_.refresh();
        } while (bench_.busy());
    }
    // Goes to a key and gives it a value.
    void set(const std::string& key, const std::string& value) {
        for (std::size_t i = 0; i < kParameterCount; ++i) {
            if (key == kParameterTable[i].name) bench_.choose(i);
        }
        press(Key::enter);
        type(value);
        press(Key::enter);
    }
    [[nodiscard]] Image picture() {
        frame();
        return screen_.picture(palette_);
    }
    [[nodiscard]] std::string cut() {
        frame();
        std::string all;
        for (const std::string& words : screen_.cut()) all += words + '\n';
        return all;
    }
    [[nodiscard]] Bench& bench() { return bench_; }
    [[nodiscard]] std::filesystem::path sets() const { return folder_ / "parameters"; }

  private:
    test::TempFolder folder_;
    Bench bench_;
    const Palette& palette_;
    MemoryScreen screen_;
};

}  // namespace podrate::ui
