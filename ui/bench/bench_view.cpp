#include "bench/bench_view.hpp"

#include <algorithm>

#include "bench/bench_frame.hpp"
#include "bench/compare_pane.hpp"
#include "bench/editor_pane.hpp"
#include "bench/list_pane.hpp"
#include "bench/tables_pane.hpp"

namespace podrate::ui {
namespace {

constexpr float kBenchTypeUnits = 21.0F;  // of the small type: room goes with it, as in the day's view
constexpr float kBenchGapUnits = 8.0F;
constexpr float kListShare = 0.36F;
constexpr float kUprightListShare = 0.44F;

void outline_pane(Canvas& canvas, const Box& box) {
    canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(canvas.palette().quiet),
                          8.0F * canvas.unit(), 0, 2.0F * canvas.unit());
}

// A press anywhere on a pane gives it the keys.
void take_keys(Canvas& canvas, const Box& box, Bench& bench, BenchPane pane) {
    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) && !bench.typing() &&
        ImGui::IsMouseHoveringRect({box.x, box.y}, {box.right(), box.bottom()}))
        bench.take_pane(pane);
    if (bench.pane() == pane) outline_pane(canvas, box);
}

}  // namespace

KeyPress draw_bench_view(Canvas& screen, const Box& whole, Bench& bench) {
    const Fonts fonts = screen.fonts().at_desk();
    Canvas canvas(screen.list(), screen.palette(), fonts, fonts.label->FontSize / kBenchTypeUnits);
    const float unit = canvas.unit();
    const float gap = kBenchGapUnits * unit;
    canvas.fill(whole, canvas.palette().ground);
    Box area = whole.inset(gap);
    draw_bench_head(canvas, area.take_top(Canvas::line_of(fonts.strong), gap), bench);
    const KeyPress asked =
        draw_bench_foot(canvas, area.take_bottom(bench_foot_height(canvas, area.w), gap), bench);
    const bool stands = upright(whole.w, whole.h);
    Box list = stands ? area.take_top(area.h * kUprightListShare, gap)
                      : area.take_left(std::max(area.w * kListShare, least_list_width(canvas)), gap);
    const Box tables = area.take_bottom(tables_height(canvas, area), gap);
    draw_compare_pane(canvas, area, bench);
    take_keys(canvas, area, bench, BenchPane::charts);
    draw_tables_pane(canvas, tables, bench);
    const Box editor = list.take_bottom(editor_height(canvas), gap);
    draw_list_pane(canvas, list, bench);
    take_keys(canvas, list, bench, BenchPane::list);
    draw_editor_pane(canvas, editor, bench);
    for (const std::string& words : canvas.cut()) screen.note_cut(words);
    return asked;
}

}  // namespace podrate::ui
