#include "day/day_view.hpp"

#include <algorithm>

#include "day/charts_pane.hpp"
#include "day/day_head.hpp"
#include "day/form_view.hpp"
#include "day/ledger_pane.hpp"
#include "day/map_pane.hpp"

namespace podrate::ui {
namespace {

constexpr float kTypeUnits =
    21.0F;  // of the small type: room goes with it, since it can't shrink below a size
constexpr float kSideShare = 0.36F;
constexpr float kLeastSideUnits = 480.0F;
constexpr float kLeastMapUnits = 330.0F;
constexpr float kPaneGapUnits = 8.0F;

void outline(Canvas& canvas, const Box& box) {
    canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(canvas.palette().quiet),
                          8.0F * canvas.unit(), 0, 2.0F * canvas.unit());
}

void draw_pane(Canvas& canvas, const Box& area, DayDesk& desk, DayPane pane) {
    switch (pane) {
        case DayPane::charts: draw_charts_pane(canvas, area, desk); break;
        case DayPane::map: draw_map_pane(canvas, area, desk); break;
        case DayPane::ledger: draw_ledger_pane(canvas, area, desk); break;
    }
    // A press anywhere on a pane gives it the keys.
    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) &&
        ImGui::IsMouseHoveringRect({area.x, area.y}, {area.right(), area.bottom()}))
        desk.take_pane(pane);
    if (desk.pane() == pane && !desk.whole()) outline(canvas, area);
}

// Charts beside map and ledger; on a small screen the map has no place of its own, but takes the charts' or
// the ledger's when the keys are its.
void draw_panes(Canvas& canvas, Box area, DayDesk& desk) {
    if (desk.whole()) {
        draw_pane(canvas, area, desk, desk.pane());
        return;
    }
    const float gap = kPaneGapUnits * canvas.unit();
    const bool stands = upright(area.w, area.h);
    Box side = stands ? area.take_bottom(area.h * kSideShare, gap)
                      : area.take_right(std::max(area.w * kSideShare, kLeastSideUnits * canvas.unit()), gap);
    draw_pane(canvas, area, desk, DayPane::charts);
    const bool roomy =
        stands ? side.w >= 2 * kLeastSideUnits * canvas.unit() : side.h >= 2 * kLeastMapUnits * canvas.unit();
    if (!roomy) {
        draw_pane(canvas, side, desk, desk.pane() == DayPane::map ? DayPane::map : DayPane::ledger);
        return;
    }
    const Box map = stands ? side.take_left(side.w / 2, gap) : side.take_top(side.h / 2, gap);
    draw_pane(canvas, map, desk, DayPane::map);
    draw_pane(canvas, side, desk, DayPane::ledger);
}

}  // namespace

KeyPress draw_day_view(Canvas& screen, const Box& whole, DayDesk& desk) {
    const Fonts fonts = screen.fonts().at_desk();
    Canvas canvas(screen.list(), screen.palette(), fonts, fonts.label->FontSize / kTypeUnits);
    const float unit = canvas.unit();
    canvas.fill(whole, canvas.palette().ground);
    Box area = whole.inset(8 * unit);
    draw_day_head(canvas, area.take_top(day_head_height(canvas, desk, area.w), 6 * unit), desk);
    const KeyPress asked =
        draw_day_foot(canvas, area.take_bottom(day_foot_height(canvas, area.w), 6 * unit), desk);
    draw_panes(canvas, area, desk);
    if (desk.form()) draw_form(canvas, area, *desk.form(), desk.speech());
    for (const std::string& words : canvas.cut()) screen.note_cut(words);
    return asked;
}

}  // namespace podrate::ui
