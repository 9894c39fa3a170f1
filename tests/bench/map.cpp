// Measures a day's map: making it, answering a click, and its frames at rest, while panning and zooming.
// usage: podrate_map_bench DAY
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>

#include "analysis/whole_day.hpp"
#include "map/map_view.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr int kFrames = 400;
constexpr float kWidth = 1920.0F;
constexpr float kHeight = 1080.0F;

// Of this thread: other work on the machine does not count.
double cpu_ms() {
    timespec now = {};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

void tell(const char* name, std::vector<double> times_ms, int vertices) {
    std::sort(times_ms.begin(), times_ms.end());
    std::printf("%-40s median %.3f ms, 99th percentile %.3f ms", name, times_ms[times_ms.size() / 2],
                times_ms[times_ms.size() * 99 / 100]);
    if (vertices > 0) std::printf(" (%d vertices)", vertices);
    std::printf("\n");
}

void clicks(const MapModel& model) {
    std::vector<double> times_ms;
    double sum_m = 0.0;
    for (int i = 0; i < 2000; ++i) {
        const sim::EastNorth place = {
            model.whole.west_m + model.whole.width_m() * std::fmod(i * 0.618034, 1.0),
            model.whole.south_m + model.whole.height_m() * std::fmod(i * 0.754878, 1.0)};
        const double begun_ms = cpu_ms();
        sum_m += model.nearest_time(static_cast<std::size_t>(i) % model.machines.size(), place)->away_m;
        times_ms.push_back(cpu_ms() - begun_ms);
    }
    tell("a click", times_ms, 0);
    std::printf("  (%.1f m to the machine's way in the mean)\n", sum_m / 2000.0);
}

template <class Move>
void frames(const MapModel& model, const Fonts& fonts, MapTopic topic, const char* name, Move move) {
    MapState state(model);
    state.topic = topic;
    std::vector<double> times_ms;
    int vertices = 0;
    const PlaceTrack& track = model.machines[0].track;
    for (int i = 0; i < kFrames; ++i) {
        move(state, i);
        const MapMoment moment = {track.time_us(track.size() * static_cast<std::size_t>(i) / kFrames), 0};
        const double begun_ms = cpu_ms();
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize({kWidth, kHeight});
        ImGui::Begin("map", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground);
        Canvas canvas(*ImGui::GetWindowDrawList(), kDayPalette, fonts, 1.0F);
        draw_map(canvas, {0, 0, kWidth, kHeight}, model, state, moment, {});
        ImGui::End();
        ImGui::Render();
        times_ms.push_back(cpu_ms() - begun_ms);
        vertices = std::max(vertices, ImGui::GetDrawData()->TotalVtxCount);
    }
    tell(name, times_ms, vertices);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: %s DAY\n", argv[0]);
        return 2;
    }
    sim::Day day = sim::read_day(argv[1]);
    sim::DayResult result = sim::replay_day(day, {});
    for (const double cell_m : {10.0, 5.0}) {
        day.map_cell_m = cell_m;
        sim::analyse_day(day, result, true);
        const double begun_ms = cpu_ms();
        const auto model = make_map_model(day, result);
        if (!model) return 1;
        std::size_t points = 0;
        for (const MachineWay& way : model->machines) points += way.track.size();
        std::printf("%zu cells of %.0f m, %zu places, %zu marks: made in %.0f ms\n", model->cells.size(),
                    cell_m, points, model->pins.size(), cpu_ms() - begun_ms);
        clicks(*model);
        ImGuiContext* context = ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {kWidth, kHeight};
        io.DeltaTime = 1.0F / 60.0F;
        io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
        const Fonts fonts = load_fonts(*io.Fonts, 1.0F, font_candidates_regular(), font_candidates_bold());
        io.Fonts->Build();
        io.Fonts->SetTexID(nullptr);
        const auto rest = [](MapState&, int) {};
        frames(*model, fonts, MapTopic::yield, "all of it, yield", rest);
        frames(*model, fonts, MapTopic::loss, "all of it, loss", rest);
        frames(*model, fonts, MapTopic::yield, "panning, three times as near", [](MapState& state, int i) {
            if (i == 0) state.window.zoom({900.0, 450.0}, 3.0);
            state.window.pan(i % 2 == 0 ? 7.0 : -5.0, 1.0);
        });
        frames(*model, fonts, MapTopic::yield, "zooming in", [](MapState& state, int) {
            state.window.zoom({900.0, 450.0}, 1.01);
        });
        io.MousePos = {900.0F, 450.0F};
        frames(*model, fonts, MapTopic::yield, "all of it, the pointer over it", rest);
        ImGui::DestroyContext(context);
    }
    return 0;
}
