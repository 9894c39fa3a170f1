#include "day/ledger_pane.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "day/ledger_mark.hpp"
#include "kit/trace_paint.hpp"

namespace podrate::ui {
namespace {

constexpr float kRowShare = 1.35F;  // of a line of text
constexpr int kRowsPerTurn = 3;
constexpr char kWidestClock[] = "00-00";
constexpr float kNarrowLedgerUnits = 480.0F;
constexpr float kChosenShade = 0.14F;

bool pressed(const Box& box, const std::string& id) {
    ImGui::SetCursorScreenPos({box.x, box.y});
    return ImGui::InvisibleButton(id.c_str(), {std::max(box.w, 1.0F), std::max(box.h, 1.0F)});
}

int kind_rows(const Canvas& canvas, float width_px) {
    return width_px < kNarrowLedgerUnits * canvas.unit() ? 3 : 2;
}

// "1 ● Loads 24": the digit is its key.
void draw_kinds(Canvas& canvas, Box area, DayDesk& desk) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().label;
    const int columns = kLedgerKinds / kind_rows(canvas, area.w);
    const float width = area.w / static_cast<float>(columns);
    const float height = area.h / static_cast<float>(kind_rows(canvas, area.w));
    for (int i = 0; i < kLedgerKinds; ++i) {
        const auto kind = static_cast<LedgerKind>(i);
        const Box cell = {area.x + width * static_cast<float>(i % columns),
                          area.y + height * static_cast<float>(i / columns), width, height};
        if (pressed(cell, "kind" + std::to_string(i))) desk.toggle(kind);
        const bool seen = desk.ledger().seen(kind);
        const Rgb colour = seen ? palette.text : palette.quiet;
        Box rest = cell.inset(2 * unit);
        canvas.text(rest.take_left(16 * unit, 4 * unit), font, palette.quiet, std::to_string(i + 1));
        const Box mark = rest.take_left(18 * unit, 6 * unit);
        paint_ledger_mark(canvas, {mark.x + mark.w / 2, mark.y + mark.h / 2}, kind, seen);
        canvas.text(rest, font, colour,
                    desk.speech()(Text::kind_count, {desk.speech()(word_for(kind)),
                                                     std::to_string(desk.ledger().count(kind))}));
        if (!seen) {
            const float y = cell.y + cell.h / 2;
            canvas.line({cell.x + 24 * unit, y}, {cell.right() - 12 * unit, y}, palette.quiet, 1.0F);
        }
    }
}

void draw_row(Canvas& canvas, const Box& row, DayDesk& desk, std::size_t index) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().label;
    const LedgerRow& what = desk.rows()[index];
    if (desk.ledger().chosen() == index) {
        canvas.list().AddRectFilled({row.x, row.y}, {row.right(), row.bottom()},
                                    Canvas::packed(palette.text, kChosenShade));
        canvas.fill({row.x, row.y, 4 * unit, row.h}, palette.text);
    }
    Box rest = row.inset(0.0F);
    rest.take_left(8 * unit);
    canvas.text(rest.take_left(Canvas::width_of(font, kWidestClock) + 1.0F, 6 * unit), font, palette.quiet,
                what.clock);
    const Box mark = rest.take_left(18 * unit, 8 * unit);
    paint_ledger_mark(canvas, {mark.x + mark.w / 2, mark.y + mark.h / 2}, what.kind, true);
    rest.take_right(8 * unit);
    const float figure = std::min(Canvas::width_of(font, what.figure) + 1.0F, rest.w * 0.6F);
    canvas.text(rest.take_right(figure, 8 * unit), font, palette.text, what.figure, Align::right);
    // As its line in the charts.
    if (desk.together()) {
        const Box whose = rest.take_left(18 * unit, 6 * unit);
        if (what.machine && *what.machine < kMostLines)
            paint_shape(canvas, {whose.x + whose.w / 2, whose.y + whose.h / 2},
                        static_cast<int>(*what.machine), palette.series[*what.machine]);
    }
    canvas.text(rest, font, palette.text, what.what);
}

}  // namespace

void draw_ledger_pane(Canvas& canvas, Box area, DayDesk& desk) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    canvas.panel(area);
    area = area.inset(6 * unit);
    const float line = Canvas::line_of(canvas.fonts().label);
    const auto kinds = static_cast<float>(kind_rows(canvas, area.w));
    draw_kinds(canvas, area.take_top(kinds * line * 1.25F, 4 * unit), desk);
    canvas.line({area.x, area.y}, {area.right(), area.y}, palette.rule, 1.0F);
    area.take_top(4 * unit);
    const float height = std::round(line * kRowShare);
    const auto room = static_cast<std::size_t>(std::max(0.0F, std::floor(area.h / height)));
    const std::vector<std::size_t>& shown = desk.ledger().shown();
    const float wheel = ImGui::GetIO().MouseWheel;
    if (wheel != 0.0F && ImGui::IsMouseHoveringRect({area.x, area.y}, {area.right(), area.bottom()}))
        desk.ledger().scroll(static_cast<int>(std::lround(-wheel * kRowsPerTurn)), room);
    const std::size_t top = desk.ledger().top(room);
    const std::size_t end = std::min(shown.size(), top + room);
    // What a click changes comes with the next frame: the rows of this one stay as they are.
    std::optional<std::size_t> clicked;
    for (std::size_t i = top; i < end; ++i) {
        const Box row = area.take_top(height);
        if (pressed(row, "row" + std::to_string(i - top))) clicked = shown[i];
        if (ImGui::IsItemHovered())
            canvas.list().AddRect({row.x, row.y}, {row.right(), row.bottom()}, Canvas::packed(palette.rule));
        draw_row(canvas, row, desk, shown[i]);
    }
    if (shown.empty())
        canvas.text(area.take_top(2 * line), canvas.fonts().label, palette.quiet,
                    desk.speech()(Text::ledger_empty), Align::centre);
    if (clicked) desk.choose(*clicked);
}

}  // namespace podrate::ui
