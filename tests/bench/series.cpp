// Measures a day's columns: loading, memory, pyramids, calling off, and the frames of charts while panning.
// usage: podrate_series_bench DAY
#include <imgui.h>
#include <malloc.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <string>
#include <thread>

#include "kit/time_series.hpp"
#include "model/open_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point begun) {
    return std::chrono::duration<double>(Clock::now() - begun).count();
}

// Of this thread: other work on the machine does not count.
double cpu_ms() {
    timespec now = {};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

double resident_mb() {
    std::ifstream statm("/proc/self/statm");
    long total = 0;
    long resident = 0;
    statm >> total >> resident;
    return static_cast<double>(resident) * 4096.0 / 1e6;
}

double peak_mb() {
    rusage usage = {};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) * 1024.0 / 1e6;
}

void call_off(const sim::Day& day, double after_s) {
    std::atomic<bool> cancel{false};
    Clock::time_point asked;
    std::thread asker([&] {
        std::this_thread::sleep_for(std::chrono::duration<double>(after_s));
        asked = Clock::now();
        cancel = true;
    });
    const bool whole = open_day(day, nullptr, cancel) != nullptr;
    const Clock::time_point ended = Clock::now();
    asker.join();
    malloc_trim(0);
    if (whole) {
        std::printf("called off after %.1f s: it was done before\n", after_s);
        return;
    }
    std::printf("called off after %.1f s: ended %.0f ms later, %.0f MB resident\n", after_s,
                std::chrono::duration<double>(ended - asked).count() * 1e3, resident_mb());
}

DaySeries load(const sim::Day& day) {
    const double before_mb = resident_mb();
    const Clock::time_point begun = Clock::now();
    const std::atomic<bool> cancel{false};
    DaySeries series = std::move(open_day(day, nullptr, cancel)->series);
    const double load_s = seconds_since(begun);
    malloc_trim(0);
    std::size_t rows = 0;
    std::size_t samples = 0;
    for (const MachineSeries& machine : series.machines) {
        rows += machine.kept_ms.size();
        for (const Column& column : machine.columns) samples += column.size();
    }
    std::printf("%zu rows, %zu samples loaded in %.1f s: %.0f MB counted, %.0f MB resident, peak %.0f MB\n",
                rows, samples, load_s, static_cast<double>(series.bytes()) / 1e6, resident_mb() - before_mb,
                peak_mb());
    double seal_ms = cpu_ms();
    for (MachineSeries& machine : series.machines) {
        for (Column& column : machine.columns) column.seal(machine.kept_ms);
    }
    seal_ms = cpu_ms() - seal_ms;
    std::printf("all pyramids built in %.0f ms of processor time\n", seal_ms);
    return series;
}

// The day's machines one after the other: a column of all their rows.
MachineSeries end_to_end(const DaySeries& series, const std::vector<Measure>& measures) {
    MachineSeries all;
    for (const Measure measure : measures) all.columns.emplace_back(measure);
    Millis from_ms = 0;
    for (const MachineSeries& machine : series.machines) {
        std::vector<std::size_t> next(measures.size(), 0);
        for (const Millis at_ms : machine.kept_ms) {
            all.kept_ms.push_back(from_ms + at_ms);
            for (std::size_t i = 0; i < measures.size(); ++i) {
                // What is told more rarely holds in between, so that each column has as many samples.
                const Column* column = machine.find(measures[i]);
                const std::vector<Millis>& times = machine.times(*column);
                while (next[i] + 1 < times.size() && times[next[i] + 1] <= at_ms) ++next[i];
                all.columns[i].add(all.kept_ms, true, from_ms + at_ms, column->value[next[i]]);
                if (!column->sd.empty()) all.columns[i].sd.push_back(column->sd[next[i]]);
                if (!column->low.empty()) all.columns[i].low.push_back(column->low[next[i]]);
                if (!column->high.empty()) all.columns[i].high.push_back(column->high[next[i]]);
            }
        }
        from_ms = all.kept_ms.back() + 100;
    }
    for (Column& column : all.columns) column.seal(all.kept_ms);
    return all;
}

void pan(const std::vector<Chart>& charts, TimeRange whole, double span_ms, const char* name) {
    constexpr int kFrames = 600;
    constexpr float kWidth = 1920.0F;
    constexpr float kHeight = 1080.0F;
    ImGuiContext* context = ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {kWidth, kHeight};
    io.DeltaTime = 1.0F / 60.0F;
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    const Fonts fonts = load_fonts(*io.Fonts, 1.0F, font_candidates_regular(), font_candidates_bold());
    io.Fonts->Build();
    io.Fonts->SetTexID(nullptr);
    TimeWindow window(whole);
    std::vector<ChartPicture> pictures(charts.size());
    std::vector<double> frame_ms;
    int vertices = 0;
    window.show({whole.from_ms, whole.from_ms + span_ms});
    for (int frame = 0; frame < kFrames; ++frame) {
        const double begun_ms = cpu_ms();
        window.pan((whole.span_ms() - span_ms) / kFrames * 0.999);
        window.set_cursor(window.shown().middle_ms());
        ImGui::NewFrame();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize(io.DisplaySize);
        ImGui::Begin("charts", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground);
        Canvas canvas(*ImGui::GetWindowDrawList(), kDayPalette, fonts, 1.0F);
        const TimeAxis times = time_axis(window, TimeUs{1751428800} * kSecondUs, "Europe/London", 14);
        const float height = kHeight / static_cast<float>(charts.size());
        for (std::size_t i = 0; i < charts.size(); ++i) {
            const Box area = {0.0F, height * static_cast<float>(i), kWidth, height};
            draw_time_series(canvas, area, charts[i], times, i + 1 == charts.size(), window, pictures[i]);
        }
        ImGui::End();
        ImGui::Render();
        frame_ms.push_back(cpu_ms() - begun_ms);
        vertices = ImGui::GetDrawData()->TotalVtxCount;
    }
    ImGui::DestroyContext(context);
    std::sort(frame_ms.begin(), frame_ms.end());
    std::printf("%-36s median %.2f ms, 99th percentile %.2f ms (%d vertices)\n", name, frame_ms[kFrames / 2],
                frame_ms[kFrames * 99 / 100], vertices);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: %s DAY\n", argv[0]);
        return 2;
    }
    const sim::Day day = sim::read_day(argv[1]);
    const DaySeries series = load(day);
    const std::vector<Measure> measures = {Measure::load_rate, Measure::yield,     Measure::loss,
                                           Measure::hopper,    Measure::harvested, Measure::level,
                                           Measure::weight};
    MachineSeries all = end_to_end(series, measures);
    // The eighth: tilt as noisy as the weight, at each row.
    Column noise(Measure::roll);
    for (const float kg : all.find(Measure::weight)->value) noise.value.push_back(std::fmod(kg, 7.0F));
    noise.seal(all.kept_ms);
    all.columns.push_back(std::move(noise));
    std::vector<Chart> charts;
    for (const Column& column : all.columns) {
        charts.push_back(bare_chart(column.measure, {}));
        charts.back().lines = {{&all, &column, "all"}};
    }
    const TimeRange whole = {0.0, static_cast<double>(all.kept_ms.back())};
    std::printf("panning 8 series of %zu samples, 5 of them with a band, 1920 px wide:\n",
                all.kept_ms.size());
    pan(charts, whole, whole.span_ms() * 0.9, "nine tenths of all");
    pan(charts, whole, 6 * 3600e3, "6 h (11 s a pixel)");
    pan(charts, whole, 3600e3, "1 h (19 rows a pixel)");
    pan(charts, whole, 600e3, "10 min (3 rows a pixel)");
    pan(charts, whole, 200e3, "200 s (a row a pixel)");
    pan(charts, whole, 120e3, "2 min (a row in 1.6 px)");
    pan(charts, whole, 10e3, "10 s (a row in 19 px)");
    for (const double after_s : {0.02, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0}) call_off(day, after_s);
    return 0;
}
