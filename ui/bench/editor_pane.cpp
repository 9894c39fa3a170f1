#include "bench/editor_pane.hpp"

#include <algorithm>

#include "bench/parameter_scale.hpp"

namespace podrate::ui {
namespace {

constexpr float kEditorPadUnits = 8.0F;
constexpr float kEntryShare = 1.5F;  // height of the typed line, in lines of text
constexpr float kFreshShade = 0.25F;

Text word_for_typing(BenchTyping typing) {
    switch (typing) {
        case BenchTyping::filter: return Text::bench_type_filter;
        case BenchTyping::name: return Text::bench_type_name;
        case BenchTyping::note: return Text::bench_type_note;
        case BenchTyping::mark_note: return Text::bench_type_mark_note;
        case BenchTyping::value:
        case BenchTyping::nothing: return Text::bench_type_value;
    }
    return Text::bench_type_value;
}

// The part of a line that holds its place and finds room.
std::string seen_of(const TypedLine& line, ImFont* font, float width) {
    std::size_t from = 0;
    while (from < line.at() && Canvas::width_of(font, line.text().substr(from, line.at() - from)) > width)
        ++from;
    while (from < line.at() && (static_cast<unsigned char>(line.text()[from]) & 0xC0U) == 0x80U) ++from;
    std::string seen = line.text().substr(from);
    while (!seen.empty() && Canvas::width_of(font, seen) > width) {
        while (!seen.empty() && (static_cast<unsigned char>(seen.back()) & 0xC0U) == 0x80U) seen.pop_back();
        if (!seen.empty()) seen.pop_back();
    }
    return seen;
}

void draw_typed(Canvas& canvas, Box row, const Bench& bench) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.fonts().label;
    const std::string what = bench.speech()(word_for_typing(bench.what_is_typed()));
    canvas.text(row.take_left(Canvas::width_of(font, what) + 1.0F, kEditorPadUnits * unit), font,
                palette.text, what);
    canvas.list().AddRect({row.x, row.y}, {row.right(), row.bottom()}, Canvas::packed(palette.text),
                          4.0F * unit, 0, 2.0F * unit);
    const Box inside = {row.x + 6 * unit, row.y, row.w - 12 * unit, row.h};
    const TypedLine& line = bench.line();
    const std::string seen = seen_of(line, font, inside.w - 4 * unit);
    const std::size_t hidden = line.text().find(seen);
    const std::string left = seen.substr(0, std::min(seen.size(), line.at() - std::min(hidden, line.at())));
    const float caret = inside.x + Canvas::width_of(font, left);
    if (line.fresh() && !seen.empty()) {
        canvas.list().AddRectFilled({inside.x, row.y + 3 * unit},
                                    {inside.x + Canvas::width_of(font, seen), row.bottom() - 3 * unit},
                                    Canvas::packed(palette.text, kFreshShade));
    }
    canvas.text(inside, font, palette.text, seen);
    canvas.line({caret, row.y + 4 * unit}, {caret, row.bottom() - 4 * unit}, palette.text, 2.0F);
}

void draw_facts(Canvas& canvas, Box area, const Bench& bench, std::size_t index) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    const Fonts& fonts = canvas.fonts();
    const Speech& say = bench.speech();
    const ParameterInfo& info = kParameterTable[index];
    const auto told = [&](double value) {
        return number_text(say, static_cast<float>(value), info.decimals);
    };
    const auto of = [&](const Parameters& parameters) {
        return told(static_cast<double>(parameters.*info.member));
    };
    Box head = area.take_top(Canvas::line_of(fonts.strong));
    std::string now = of(bench.edited().now());
    // "1" and "0-2" are units of numbers alone.
    if (digit_of(key_of(info.unit[0])) < 0) now = say(Text::bench_with_unit, {now, info.unit});
    canvas.text(head.take_right(Canvas::width_of(fonts.strong, now) + 1.0F, kEditorPadUnits * unit),
                fonts.strong, palette.text, now, Align::right);
    canvas.text(head, fonts.label, palette.text, info.name);
    const float line = Canvas::line_of(fonts.label);
    Box row = area.take_top(line);
    canvas.text(row.take_right(row.w / 2), fonts.label, palette.quiet,
                say(Text::bench_default, {told(info.value)}), Align::right);
    canvas.text(row, fonts.label, palette.quiet, say.range(told(info.low), told(info.high)));
    canvas.text(area.take_top(line), fonts.label, palette.quiet,
                say(Text::bench_own_value, {of(bench.edited().own())}));
}

// The parameter's range: a tick where the day has it, a mark to drag where it is now.
void draw_track(Canvas& canvas, const Box& row, Bench& bench, std::size_t index) {
    const float unit = canvas.unit();
    const Palette& palette = canvas.palette();
    const ParameterInfo& info = kParameterTable[index];
    const Box track = {row.x + 8 * unit, row.y + row.h / 2 - 2 * unit, row.w - 16 * unit, 4 * unit};
    const auto x_of = [&](const Parameters& parameters) {
        const double share = share_of_range(info, static_cast<double>(parameters.*info.member));
        return track.x + track.w * static_cast<float>(share);
    };
    ImGui::SetCursorScreenPos({row.x, row.y});
    ImGui::InvisibleButton("track", {row.w, row.h});
    const bool held = ImGui::IsItemActive();
    if (held) {
        const float x = ImGui::GetIO().MousePos.x;
        bench.drag_value(static_cast<double>((x - track.x) / track.w), ImGui::IsItemActivated());
    }
    canvas.fill(track, palette.rule, 2.0F);
    const float own = x_of(bench.edited().own());
    canvas.line({own, row.y + 2 * unit}, {own, row.bottom() - 2 * unit}, palette.quiet, 2.0F);
    const float now = x_of(bench.edited().now());
    canvas.fill({now - 5 * unit, row.y + 3 * unit, 10 * unit, row.h - 6 * unit},
                held || ImGui::IsItemHovered() ? palette.text : palette.rate, 3.0F);
}

}  // namespace

float editor_height(const Canvas& canvas) {
    const float line = Canvas::line_of(canvas.fonts().label);
    return Canvas::line_of(canvas.fonts().strong) + (2.0F + kEntryShare) * line + 20 * canvas.unit();
}

void draw_editor_pane(Canvas& canvas, Box area, Bench& bench) {
    const float unit = canvas.unit();
    canvas.panel(area);
    area = area.inset(kEditorPadUnits * unit);
    const Box typed = area.take_bottom(kEntryShare * Canvas::line_of(canvas.fonts().label), 4 * unit);
    if (bench.list().chosen()) draw_facts(canvas, area, bench, *bench.list().chosen());
    if (bench.typing()) {
        draw_typed(canvas, typed, bench);
    } else if (bench.list().chosen()) {
        draw_track(canvas, typed, bench, *bench.list().chosen());
    }
}

}  // namespace podrate::ui
