#include "day/day_view.hpp"

#include <algorithm>

#include "day/charts_pane.hpp"
#include "day/day_head.hpp"
#include "day/ledger_pane.hpp"

namespace podrate::ui {
namespace {

constexpr float kTypeUnits =
    21.0F;  // of the small type: room goes with it, since it can't shrink below a size
constexpr float kSideShare = 0.36F;
constexpr float kLeastSideUnits = 480.0F;

void outline(Canvas& canvas, const Box& box) {
    canvas.list().AddRect({box.x, box.y}, {box.right(), box.bottom()}, Canvas::packed(canvas.palette().quiet),
                          8.0F * canvas.unit(), 0, 2.0F * canvas.unit());
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
    if (desk.whole()) {
        if (desk.pane() == DayPane::charts) draw_charts_pane(canvas, area, desk);
        if (desk.pane() == DayPane::ledger) draw_ledger_pane(canvas, area, desk);
    } else {
        const bool stands = upright(whole.w, whole.h);
        const float least = kLeastSideUnits * unit;
        const Box side = stands ? area.take_bottom(area.h * kSideShare, 8 * unit)
                                : area.take_right(std::max(area.w * kSideShare, least), 8 * unit);
        draw_charts_pane(canvas, area, desk);
        draw_ledger_pane(canvas, side, desk);
        outline(canvas, desk.pane() == DayPane::charts ? area : side);
    }
    for (const std::string& words : canvas.cut()) screen.note_cut(words);
    return asked;
}

}  // namespace podrate::ui
