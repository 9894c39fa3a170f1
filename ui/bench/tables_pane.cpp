#include "bench/tables_pane.hpp"

#include <algorithm>
#include <cmath>

#include "bench/table_paint.hpp"
#include "bench/told_pane.hpp"
#include "day/local_time.hpp"
#include "model/words.hpp"

namespace podrate::ui {
namespace {

constexpr int kTableRows = 9;  // of the totals, with their head
constexpr float kTablesShare = 0.55F;
constexpr float kLeastTableUnits = 540.0F;

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

void draw_tables_pane(Canvas& canvas, Box area, Bench& bench) {
    const float gap = kTablePadUnits * canvas.unit();
    const bool both = area.w >= 2 * kLeastTableUnits * canvas.unit() + gap;
    const BenchTable table = bench.table();
    if (table == BenchTable::history) {
        draw_history(canvas, table_panel(canvas, area), bench);
        return;
    }
    if (table == BenchTable::told || table == BenchTable::curve) {
        draw_told_pane(canvas, table_panel(canvas, area), bench);
        return;
    }
    if (both || table == BenchTable::totals)
        draw_totals(canvas, table_panel(canvas, both ? area.take_left((area.w - gap) / 2, gap) : area),
                    bench);
    if (both || table == BenchTable::alarms) draw_alarms(canvas, table_panel(canvas, area), bench);
}

}  // namespace podrate::ui
