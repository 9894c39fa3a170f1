#include "bench/list_pane.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "bench/sections.hpp"

namespace podrate::ui {
namespace {

constexpr float kListRowShare = 1.3F;  // of a line of text
constexpr int kListRowsPerTurn = 3;
constexpr float kListShade = 0.14F;
constexpr float kPadUnits = 8.0F;
constexpr float kMarkUnits = 18.0F;
constexpr char kWidestValue[] = "-00000.00";

float widest_key(const Canvas& canvas) {
    float widest = 0.0F;
    for (const ParameterInfo& info : kParameterTable)
        widest = std::max(widest, Canvas::width_of(canvas.fonts().label, info.name));
    return widest + 1.0F;
}

float value_width(const Canvas& canvas) {
    return Canvas::width_of(canvas.fonts().label, kWidestValue);
}

std::string value_text(const Bench& bench, const Parameters& parameters, std::size_t index) {
    const ParameterInfo& info = kParameterTable[index];
    return number_text(bench.speech(), static_cast<float>(parameters.*info.member), info.decimals);
}

void draw_section(Canvas& canvas, Box row, const Speech& say, std::size_t section) {
    const Palette& palette = canvas.palette();
    row.take_left(kPadUnits * canvas.unit());
    const float width =
        canvas.text(row, canvas.fonts().strong, palette.text, say(parameter_sections()[section].name));
    const float y = std::round(row.y + row.h / 2);
    canvas.line({row.x + width + kPadUnits * canvas.unit(), y}, {row.right(), y}, palette.rule, 1.0F);
}

// A changed value has a bullet, and this day's own beside it where there is room.
void draw_parameter(Canvas& canvas, const Box& whole, const Bench& bench, std::size_t index) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().label;
    if (bench.list().chosen() == index) {
        canvas.list().AddRectFilled({whole.x, whole.y}, {whole.right(), whole.bottom()},
                                    Canvas::packed(palette.text, kListShade));
        canvas.fill({whole.x, whole.y, 4 * unit, whole.h}, palette.text);
    }
    Box row = whole;
    row.take_left(kPadUnits * unit);
    row.take_right(kPadUnits * unit);
    const bool changed = bench.edited().changed(index);
    const Box mark = row.take_left(kMarkUnits * unit);
    if (changed) canvas.text(mark, font, palette.text, "\xE2\x80\xA2", Align::centre);
    const float value = value_width(canvas);
    canvas.text(row.take_right(value, kPadUnits * unit), changed ? canvas.fonts().strong : font, palette.text,
                value_text(bench, bench.edited().now(), index), Align::right);
    const bool roomy = row.w >= widest_key(canvas) + value + kPadUnits * unit;
    const Box own = roomy ? row.take_right(value, kPadUnits * unit) : Box{};
    if (roomy && changed)
        canvas.text(own, font, palette.quiet, value_text(bench, bench.edited().own(), index), Align::right);
    canvas.text(row, font, changed ? palette.text : palette.quiet, kParameterTable[index].name);
}

bool pressed_row(const Box& box, const std::string& id) {
    ImGui::SetCursorScreenPos({box.x, box.y});
    return ImGui::InvisibleButton(id.c_str(), {std::max(box.w, 1.0F), std::max(box.h, 1.0F)});
}

void draw_sieve(Canvas& canvas, const Box& row, const Bench& bench) {
    const ParameterList& list = bench.list();
    const Speech& say = bench.speech();
    std::string words;
    if (!list.filter().empty()) words = say(Text::bench_filter, {list.filter()});
    if (list.changed_only()) {
        const std::string only = say(Text::bench_changed_only);
        words = words.empty() ? only : say(Text::bench_both_sieves, {words, only});
    }
    canvas.text(row.inset(0.0F), canvas.fonts().label, canvas.palette().text, words);
}

}  // namespace

float least_list_width(const Canvas& canvas) {
    return widest_key(canvas) + value_width(canvas) + (4 * kPadUnits + kMarkUnits + 12.0F) * canvas.unit();
}

void draw_list_pane(Canvas& canvas, Box area, Bench& bench) {
    const float unit = canvas.unit();
    canvas.panel(area);
    area = area.inset(6 * unit);
    const float line = Canvas::line_of(canvas.fonts().label);
    ParameterList& list = bench.list();
    if (!list.filter().empty() || list.changed_only()) {
        Box sieve = area.take_top(line, 4 * unit);
        sieve.take_left(kPadUnits * unit);
        draw_sieve(canvas, sieve, bench);
    }
    const float height = std::round(line * kListRowShare);
    const auto room = static_cast<std::size_t>(std::max(1.0F, std::floor(area.h / height)));
    const float wheel = ImGui::GetIO().MouseWheel;
    if (wheel != 0.0F && ImGui::IsMouseHoveringRect({area.x, area.y}, {area.right(), area.bottom()}))
        list.scroll(static_cast<int>(std::lround(-wheel * kListRowsPerTurn)), room);
    const std::size_t top = list.top(room);
    const std::size_t end = std::min(list.rows().size(), top + room);
    // What a click changes comes with the next frame: the rows of this one stay as they are.
    std::optional<std::size_t> clicked;
    for (std::size_t i = top; i < end; ++i) {
        const Box row = area.take_top(height);
        const ListRow& what = list.rows()[i];
        if (what.head) {
            draw_section(canvas, row, bench.speech(), what.at);
            continue;
        }
        if (pressed_row(row, "row" + std::to_string(i - top))) clicked = what.at;
        draw_parameter(canvas, row, bench, what.at);
    }
    if (list.rows().empty()) {
        const Text none = list.filter().empty() ? Text::bench_none_changed : Text::bench_none_seen;
        canvas.text(area.take_top(2 * line), canvas.fonts().label, canvas.palette().quiet,
                    bench.speech()(none), Align::centre);
    }
    if (clicked) bench.choose(*clicked);
}

}  // namespace podrate::ui
