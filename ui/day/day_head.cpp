#include "day/day_head.hpp"

#include <algorithm>

#include "day/day_sums.hpp"
#include "kit/button.hpp"
#include "kit/trace_paint.hpp"
#include "model/clock_text.hpp"
#include "model/words.hpp"

namespace podrate::ui {
namespace {

constexpr float kHeadGapUnits = 8.0F;

std::string state_at(const DayDesk& desk) {
    const auto& cursor = desk.window().cursor_ms();
    if (!cursor) return "";
    const MachineSeries& machine = desk.day().series.machines[desk.machine()];
    const auto state = machine.step_at(StepMeasure::state, *cursor);
    return desk.speech()(state ? word_for(static_cast<WorkState>(*state)) : Text::state_no_data);
}

// "15:00 to 18:09" of what is shown.
std::string shown_hours(const DayDesk& desk) {
    const DaySeries& series = desk.day().series;
    const TimeRange& shown = desk.window().shown();
    const bool near = shown.span_ms() < 600e3;
    return desk.speech().range(clock_text(series.time_us(shown.from_ms), series.time_zone, near),
                               clock_text(series.time_us(shown.to_ms), series.time_zone, near));
}

constexpr float kNarrowUnits = 1150.0F;

// On a narrow screen buttons stand in two lines, and so do a machine's figures where it is alone.
bool narrow(const Canvas& canvas, float width_px) {
    return width_px < kNarrowUnits * canvas.unit();
}

int lines_for(const Canvas& canvas, float width_px) {
    return narrow(canvas, width_px) ? 2 : 1;
}

struct SumLayout {
    int lines = 1;
    int columns = 5;
};

SumLayout layout_of(const Canvas& canvas, const DayDesk& desk, float width_px) {
    if (!narrow(canvas, width_px)) return {1, 5};
    return desk.sums().size() == 1 ? SumLayout{2, 3} : SumLayout{1, 3};
}

// `shape`: of its line in the charts; -1 where they show no other.
void draw_sum(Canvas& canvas, Box area, const DaySum& sum, const SumLayout& layout, int shape) {
    ImFont* font = canvas.fonts().label;
    const Palette& palette = canvas.palette();
    const float line = Canvas::line_of(font);
    const float gap = kHeadGapUnits * canvas.unit();
    Box name = area.take_left(area.w * 0.14F, gap);
    if (shape >= 0 && shape < kMostLines) {
        const Box mark = name.take_left(14 * canvas.unit(), gap);
        paint_shape(canvas, {mark.x + mark.w / 2, mark.y + line / 2}, shape, palette.series[shape]);
    }
    canvas.text({name.x, name.y, name.w, line}, font, palette.text, sum.name);
    if (!sum.refusal.empty()) {
        canvas.text({area.x, area.y, area.w, line}, font, palette.warning, sum.refusal);
        return;
    }
    // What matters first: the rest where there is room.
    const std::string* const figures[] = {&sum.harvested, &sum.yield, &sum.lost, &sum.area, &sum.rate};
    const int count = std::min(static_cast<int>(std::size(figures)), layout.lines * layout.columns);
    const auto columns = static_cast<float>(layout.columns);
    const float width = (area.w - gap * columns) / columns;
    for (int i = 0; i < count; ++i) {
        canvas.text({area.x + static_cast<float>(i % layout.columns) * (width + gap),
                     area.y + static_cast<float>(i / layout.columns) * line, width, line},
                    font, palette.text, *figures[i]);
    }
}

Text page_word(ChartPage page) {
    constexpr Text kWords[kChartPages] = {Text::page_estimates, Text::page_losses, Text::page_weighing,
                                          Text::page_machine};
    return kWords[static_cast<std::size_t>(page)];
}

struct FootButton {
    const char* id;
    KeyPress press;
    std::string words;
    bool on = false;
};

}  // namespace

float day_head_height(const Canvas& canvas, const DayDesk& desk, float width_px) {
    const auto sums = static_cast<float>(desk.sums().size());
    return Canvas::line_of(canvas.fonts().strong) +
           sums * static_cast<float>(layout_of(canvas, desk, width_px).lines) *
               Canvas::line_of(canvas.fonts().label);
}

void draw_day_head(Canvas& canvas, Box area, DayDesk& desk) {
    const Palette& palette = canvas.palette();
    const Speech& say = desk.speech();
    ImFont* strong = canvas.fonts().strong;
    Box title = area.take_top(Canvas::line_of(strong));
    std::string now = shown_hours(desk);
    if (const auto at_us = desk.cursor_us())
        now = say(Text::at_cursor,
                  {clock_text(*at_us, desk.day().series.time_zone, true), state_at(desk), now});
    canvas.text(title.take_right(std::min(Canvas::width_of(strong, now) + 1.0F, title.w * 0.6F),
                                 2 * kHeadGapUnits * canvas.unit()),
                strong, palette.text, now, Align::right);
    canvas.text(title, strong, palette.text, desk.day().series.label);
    const SumLayout layout = layout_of(canvas, desk, area.w);
    const float height = static_cast<float>(layout.lines) * Canvas::line_of(canvas.fonts().label);
    for (const ShownSum& shown : desk.sums())
        draw_sum(canvas, area.take_top(height), shown.sum, layout, shown.shape);
}

float day_foot_height(const Canvas& canvas, float width_px) {
    return 1.9F * Canvas::line_of(canvas.fonts().label) * static_cast<float>(lines_for(canvas, width_px));
}

KeyPress draw_day_foot(Canvas& canvas, Box area, const DayDesk& desk) {
    const Speech& say = desk.speech();
    const float gap = kHeadGapUnits * canvas.unit();
    if (!desk.note().empty()) {
        canvas.text(area, canvas.fonts().label, canvas.palette().text, desk.note());
        return {};
    }
    const FootButton buttons[] = {
        {"driver", {Key::f2}, say(Text::foot_driver)},
        {"bench", {Key::f4}, say(Text::foot_bench)},
        {"machine", {Key::m}, say(Text::foot_machine, {desk.day().series.machines[desk.machine()].id})},
        {"together", {Key::c}, say(Text::foot_together), desk.together()},
        {"page", {Key::g}, say(Text::foot_page, {say(page_word(desk.page()))})},
        {"tray", {Key::t}, say(Text::foot_tray)},
        {"reading", {Key::r}, say(Text::foot_reading)},
        {"picture", {Key::p}, say(Text::foot_picture)},
        {"table", {Key::x}, say(Text::foot_table)},
        {"night", {Key::n}, say(Text::foot_night)},
        {"help", {Key::f1}, say(Text::foot_help)},
    };
    const int lines = lines_for(canvas, area.w);
    const int columns = (static_cast<int>(std::size(buttons)) + lines - 1) / lines;
    const float width = (area.w - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
    const float height = (area.h - gap * static_cast<float>(lines - 1)) / static_cast<float>(lines);
    KeyPress asked;
    for (int i = 0; i < static_cast<int>(std::size(buttons)); ++i) {
        const Box box = {area.x + static_cast<float>(i % columns) * (width + gap),
                         area.y + static_cast<float>(i / columns) * (height + gap), width, height};
        if (button(canvas, box, buttons[i].id, buttons[i].words, buttons[i].on)) asked = buttons[i].press;
    }
    return asked;
}

}  // namespace podrate::ui
