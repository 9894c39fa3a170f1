#include "bench/tables_pane.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "day/local_time.hpp"
#include "model/words.hpp"

namespace podrate::ui {
namespace {

constexpr float kTablePadUnits = 8.0F;
constexpr float kTableRowShare = 1.2F;
constexpr int kTableRows = 9;  // of the totals, with their head
constexpr float kTablesShare = 0.55F;
constexpr float kLeastTableUnits = 540.0F;
constexpr float kMostTableUnits = 620.0F;  // wider, eyes lose the row

// A row of words: the first takes what room the others leave.
template <std::size_t columns>
void draw_cells(Canvas& canvas, Box row, const std::array<std::string, columns>& words,
                const std::array<float, columns>& widths, Rgb colour) {
    ImFont* font = canvas.fonts().label;
    const float gap = kTablePadUnits * canvas.unit();
    for (std::size_t i = columns - 1; i > 0; --i)
        canvas.text(row.take_right(widths[i], gap), font, colour, words[i], Align::right);
    canvas.text(row, font, colour, words[0]);
}

template <std::size_t columns>
std::array<float, columns> widths_of(const std::vector<std::array<std::string, columns>>& rows,
                                     ImFont* font) {
    std::array<float, columns> widths{};
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < columns; ++i)
            widths[i] = std::max(widths[i], Canvas::width_of(font, row[i]) + 1.0F);
    }
    return widths;
}

// The first row is the head.
template <std::size_t columns>
void draw_table(Canvas& canvas, Box area, const std::vector<std::array<std::string, columns>>& rows) {
    const float line = Canvas::line_of(canvas.fonts().label);
    const float height = std::min(kTableRowShare * line, area.h / static_cast<float>(rows.size()));
    const auto widths = widths_of(rows, canvas.fonts().label);
    area.w = std::min(area.w, kMostTableUnits * canvas.unit());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Palette& palette = canvas.palette();
        draw_cells(canvas, area.take_top(height), rows[i], widths, i == 0 ? palette.quiet : palette.text);
    }
}

void draw_totals(Canvas& canvas, const Box& area, const Bench& bench) {
    const Speech& say = bench.speech();
    std::vector<std::array<std::string, 4>> rows = {
        {"", say(Text::bench_before), say(Text::bench_after), say(Text::bench_change)}};
    for (const FigureCompared& one : bench.totals()) {
        const std::string name = one.unit.empty() ? one.name : say(Text::chart_title, {one.name, one.unit});
        rows.push_back({name, one.before, one.after, one.change});
    }
    draw_table(canvas, area, rows);
}

std::string times_and_minutes(const Speech& say, int times, double seconds) {
    return say(Text::bench_times_min, {std::to_string(times), say.number(seconds / 60.0, 0)});
}

void draw_alarms(Canvas& canvas, Box area, const Bench& bench) {
    const Speech& say = bench.speech();
    if (bench.alarms().empty()) {
        canvas.text(area.take_top(Canvas::line_of(canvas.fonts().label)), canvas.fonts().label,
                    canvas.palette().quiet, say(Text::bench_no_alarms));
        return;
    }
    const bool rerun = bench.after() != nullptr && bench.after()->machine.usable;
    std::vector<std::array<std::string, 5>> rows = {{say(Text::bench_alarms_head), say(Text::bench_before),
                                                     say(Text::bench_after), say(Text::bench_gone),
                                                     say(Text::bench_come)}};
    for (const AlarmsCompared& one : bench.alarms()) {
        rows.push_back({say(name_for(one.alarm)), times_and_minutes(say, one.before, one.before_s),
                        rerun ? times_and_minutes(say, one.after, one.after_s) : "",
                        rerun && one.gone > 0 ? std::to_string(one.gone) : "",
                        rerun && one.come > 0 ? std::to_string(one.come) : ""});
    }
    draw_table(canvas, area, rows);
}

// From the top of what is left of the area.
void write_lines(Canvas& canvas, Box& area, Rgb colour, const std::string& words) {
    ImFont* font = canvas.fonts().label;
    const float line = Canvas::line_of(font);
    if (area.h < line) return;
    const float lines = std::min(Canvas::lines_of(font, words, area.w), std::floor(area.h / line));
    canvas.lines(area.take_top(lines * line), font, colour, words);
}

// The newest first, as many as find room.
void draw_history(Canvas& canvas, Box area, const Bench& bench) {
    const Speech& say = bench.speech();
    ImFont* font = canvas.fonts().label;
    const Palette& palette = canvas.palette();
    const float line = Canvas::line_of(font);
    const auto& from = bench.edited().from();
    if (!from) {
        canvas.text(area.take_top(line), font, palette.quiet, say(Text::bench_no_history));
        return;
    }
    std::vector<const sim::SetEntry*> entries = {&from->set.made};
    for (auto it = from->set.history.rbegin(); it != from->set.history.rend(); ++it) entries.push_back(&*it);
    const std::string& zone = bench.day().series.time_zone;
    for (const sim::SetEntry* entry : entries) {
        if (area.h < 3 * line) break;
        const sim::LocalTime when = sim::local_time(entry->unix_s * kSecondUs, zone);
        const std::string moment = when.date + ' ' + when.hh_mm();
        write_lines(canvas, area, palette.quiet,
                    say(Text::bench_entry, {moment, entry->who, entry->made_from}));
        write_lines(canvas, area, palette.text, entry->note);
        area.take_top(4 * canvas.unit());
    }
}

Box table_panel(Canvas& canvas, const Box& box) {
    canvas.panel(box);
    return box.inset(kTablePadUnits * canvas.unit());
}

}  // namespace

float tables_height(const Canvas& canvas, const Box& area) {
    const float rows = kTableRows * kTableRowShare * Canvas::line_of(canvas.fonts().label);
    return std::min(kTablesShare * area.h, rows + 2 * kTablePadUnits * canvas.unit());
}

void draw_tables_pane(Canvas& canvas, Box area, const Bench& bench) {
    const float gap = kTablePadUnits * canvas.unit();
    const bool both = area.w >= 2 * kLeastTableUnits * canvas.unit() + gap;
    const BenchTable table = bench.table();
    if (table == BenchTable::history) {
        draw_history(canvas, table_panel(canvas, area), bench);
        return;
    }
    if (both || table == BenchTable::totals)
        draw_totals(canvas, table_panel(canvas, both ? area.take_left((area.w - gap) / 2, gap) : area),
                    bench);
    if (both || table == BenchTable::alarms) draw_alarms(canvas, table_panel(canvas, area), bench);
}

}  // namespace podrate::ui
