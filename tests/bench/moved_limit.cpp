// Measures how soon a limit that is moved by the mouse on the bench shows the day's alarms: from the mouse's
// step to the frame that is ready to be painted, and to its pixels. Every alarm shown is set against a whole
// replay's.
// usage: podrate_moved_limit_bench DAY
#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <string>
#include <thread>

#include "bench/bench_view.hpp"
#include "bench/parameter_scale.hpp"
#include "raster/rasteriser.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr int kMoves = 200;
constexpr int kPaintEach = 20;  // moves: painting by the processor is not what a window does
constexpr float kWidth = 1280.0F;
constexpr float kHeight = 800.0F;

double now_ms() {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

// Of this thread: other work on the machine does not count.
double cpu_ms() {
    timespec now = {};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

void tell(const char* name, std::vector<double> times_ms) {
    std::sort(times_ms.begin(), times_ms.end());
    std::printf("  %-44s median %5.1f ms, worst %5.1f ms\n", name, times_ms[times_ms.size() / 2],
                times_ms.back());
}

void settle(Bench& bench) {
    do {
        while (bench.busy()) std::this_thread::sleep_for(std::chrono::milliseconds(2));
        bench.refresh();
    } while (bench.busy());
}

// A screen in memory, with the mouse on the track of the chosen parameter.
class Screen {
  public:
    Screen() : context_(ImGui::CreateContext()) {
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {kWidth, kHeight};
        io.DeltaTime = 1.0F / 60.0F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        fonts_ = load_fonts(*io.Fonts, 1.0F, font_candidates_regular(), font_candidates_bold());
        io.Fonts->Build();
        io.Fonts->SetTexID(nullptr);
    }
    ~Screen() { ImGui::DestroyContext(context_); }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    void frame(Bench& bench) {
        bench.refresh();
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize({kWidth, kHeight});
        ImGui::Begin("bench", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground);
        Canvas canvas(*ImGui::GetWindowDrawList(), kDayPalette, fonts_, 1.0F);
        bench.press(draw_bench_view(canvas, {0, 0, kWidth, kHeight}, bench));
        ImGui::End();
        ImGui::Render();
    }

    void pixels() const {
        rasterise(*ImGui::GetDrawData(), *ImGui::GetIO().Fonts, static_cast<int>(kWidth),
                  static_cast<int>(kHeight), kDayPalette.ground);
    }

    // Takes hold of the mark: looks for the track's row in the list's column.
    bool grab(Bench& bench) {
        ImGuiIO& io = ImGui::GetIO();
        for (float y = 640.0F; y < 720.0F; y += 4.0F) {
            io.MousePos = {kLeft, y};
            io.MouseDown[0] = false;
            frame(bench);
            frame(bench);
            io.MouseDown[0] = true;
            frame(bench);
            if (bench.edited().changes() > 0) return true;
        }
        return false;
    }
    void let_go(Bench& bench) {
        ImGui::GetIO().MouseDown[0] = false;
        frame(bench);
    }

    static constexpr float kLeft = 24.0F;
    static constexpr float kRight = 445.0F;

  private:
    ImGuiContext* context_;
    Fonts fonts_;
};

bool same_alarms(const std::vector<sim::AlarmEvent>& a, const std::vector<sim::AlarmEvent>& b) {
    return std::equal(
        a.begin(), a.end(), b.begin(), b.end(), [](const sim::AlarmEvent& one, const sim::AlarmEvent& other) {
            return one.alarm == other.alarm && one.start_us == other.start_us && one.end_us == other.end_us;
        });
}

bool as_replayed(const Bench& bench) {
    sim::Machine machine = bench.day().day.machines[bench.machine()];
    machine.parameters = bench.edited().now();
    return bench.after() != nullptr &&
           same_alarms(bench.after()->machine.alarms, sim::replay_machine(machine, {}, nullptr).alarms);
}

bool move(Bench& bench, Screen& screen, const std::string& key, bool together) {
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (key == kParameterTable[i].name) bench.choose(i);
    }
    if (bench.together() != together) bench.press({Key::v});
    settle(bench);
    std::printf("%s, %s: %zu alarms of the day before\n", key.c_str(),
                together ? "counted over all machines" : "one machine", bench.before().alarms.size());
    if (!screen.grab(bench)) return false;
    std::vector<double> frames_ms;
    std::vector<double> work_ms;
    std::vector<double> pixels_ms;
    std::size_t least = SIZE_MAX;
    std::size_t most = 0;
    for (int i = 0; i < kMoves; ++i) {
        // Across the range and back, so that each step is another value.
        const double share = std::abs(std::fmod(2.0 * i / kMoves + 1.0, 2.0) - 1.0);
        ImGui::GetIO().MousePos.x =
            Screen::kLeft + static_cast<float>(share) * (Screen::kRight - Screen::kLeft);
        const double begun_ms = now_ms();
        const double begun_cpu_ms = cpu_ms();
        screen.frame(bench);
        frames_ms.push_back(now_ms() - begun_ms);
        work_ms.push_back(cpu_ms() - begun_cpu_ms);
        if (i % kPaintEach == 0) {
            screen.pixels();
            pixels_ms.push_back(now_ms() - begun_ms);
        }
        const std::size_t alarms =
            (bench.after() != nullptr ? bench.after()->machine : bench.before()).alarms.size();
        least = std::min(least, alarms);
        most = std::max(most, alarms);
    }
    tell("to the frame", frames_ms);
    tell("... of that processor time", work_ms);
    tell("to its pixels, painted by the processor", pixels_ms);
    std::printf("  %zu to %zu alarms\n", least, most);
    const double begun_ms = now_ms();
    screen.let_go(bench);
    settle(bench);
    std::printf("  the curve stood %.0f ms after the mouse was let go\n", now_ms() - begun_ms);
    const bool same = as_replayed(bench);
    if (!same) std::printf("  NOT the alarms of a whole replay\n");
    bench.press({Key::r});
    settle(bench);
    return same;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: %s DAY\n", argv[0]);
        return 2;
    }
    std::setvbuf(stdout, nullptr, _IOLBF, BUFSIZ);
    const std::atomic<bool> cancel{false};
    const double begun_ms = now_ms();
    std::shared_ptr<const OpenDay> day = open_day(argv[1], nullptr, cancel);
    std::printf("%zu machines opened in %.1f s\n", day->day.machines.size(), (now_ms() - begun_ms) / 1e3);
    Bench bench(day, {}, {}, nullptr);
    Screen screen;
    bool good = true;
    for (const bool together : {false, true}) {
        if (together && day->day.machines.size() < 2) break;
        for (const char* key : {"loss_high_share", "hopper_full_share", "rate_low_on_s"})
            good = move(bench, screen, key, together) && good;
    }
    return good ? 0 : 1;
}
