#include "bench/told_words.hpp"

#include <algorithm>
#include <cmath>

#include "model/clock_text.hpp"
#include "model/words.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr int kPerHourDecimals = 2;
constexpr const char* kNone = "\xE2\x80\x93";

Text source_word_for(const sim::AlarmTruth& truth) {
    if (!truth.known) return Text::bench_due_unknown;
    switch (truth.source) {
        case sim::EpisodeSource::truth: break;
        case sim::EpisodeSource::marked: return Text::bench_due_marked;
        case sim::EpisodeSource::trays: return Text::bench_due_trays;
    }
    return Text::bench_due_truth;
}

// An episode goes before an alarm.
std::string cursor_words(const Bench& bench) {
    const std::optional<TimeUs> cursor_us = bench.cursor_us();
    if (!cursor_us) return {};
    const double at_s = static_cast<double>(*cursor_us) / 1e6;
    const auto holds = [&](const sim::AlarmSpan& span) {
        constexpr double kSlackS = 0.06;  // a cursor stands at a whole millisecond, a mark at a tenth
        return span.start_unix_s - kSlackS <= at_s && at_s <= span.end_unix_s + kSlackS;
    };
    const Speech& say = bench.speech();
    const sim::AlarmOutcomes outcomes = bench.book().outcomes(true);
    for (std::size_t i = 0; i < outcomes.due.size(); ++i) {
        if (!holds(outcomes.due[i])) continue;
        const std::string when = span_words(bench, outcomes.due[i]);
        if (outcomes.told_after_s[i] >= 0.0)
            return say(Text::bench_at_told, {when, say.number(outcomes.told_after_s[i], 0)});
        const double begins_s = outcomes.due[i].start_unix_s;
        const bool stood = sim::first_span_in(outcomes.alarms, begins_s, begins_s) != nullptr;
        return say(stood ? Text::bench_at_stood : Text::bench_at_missed, {when});
    }
    for (std::size_t i = 0; i < outcomes.alarms.size(); ++i) {
        if (outcomes.for_nothing[i] && holds(outcomes.alarms[i]))
            return say(Text::bench_at_nothing, {span_words(bench, outcomes.alarms[i])});
    }
    return {};
}

std::string count_per_h(const Speech& say, double count, double per_h) {
    const std::string told = say.number(count, 0);
    if (std::isnan(per_h)) return told;
    return say(Text::bench_with_rate, {told, say.number(per_h, kPerHourDecimals)});
}

std::string seconds(const Speech& say, double delay_s) {
    return std::isnan(delay_s) ? kNone : say.number(delay_s, 1);
}

double longest_delay_s(const Bench& bench, std::size_t side) {
    double longest_s = std::nan("");
    for (const sim::MachineDayTally& tally : bench.book().table().tallies[side]) {
        for (const float delay : tally.alarms[static_cast<std::size_t>(*bench.alarm())].delays_s) {
            const auto delay_s = static_cast<double>(delay);
            if (!(delay_s <= longest_s)) longest_s = delay_s;
        }
    }
    return longest_s;
}

// Cells of one setting, from the second row on.
std::vector<std::string> cells_of(const Bench& bench, std::size_t side) {
    const Speech& say = bench.speech();
    const AlarmPoint& point = side == 0 ? bench.book().before() : bench.book().after();
    const sim::AlarmSum& sum = point.sum;
    const bool known = sum.known_h > 0.0;
    const double missed = sum.missed() / sum.episodes;
    const auto count = [&](double value) { return known ? say.number(value, 0) : std::string(kNone); };
    return {
        count(sum.episodes),
        count(sum.told),
        sum.episodes > 0.0 ? say(Text::bench_with_rate, {say.number(sum.missed(), 0), say.percent(missed)})
                           : count(sum.missed()),
        seconds(say, of(point.figures, sim::AlarmFigure::delay_median_s)),
        seconds(say, longest_delay_s(bench, side)),
        count_per_h(say, sum.alarms, of(point.figures, sim::AlarmFigure::alarms_per_h)),
        known ? count_per_h(say, sum.false_alarms, of(point.figures, sim::AlarmFigure::false_per_h)) : kNone,
        known ? say.percent(of(point.figures, sim::AlarmFigure::idle_share)) : kNone,
        say.number(known ? sum.known_h : sum.judged_h, kPerHourDecimals)};
}

}  // namespace

std::string span_words(const Bench& bench, const sim::AlarmSpan& span) {
    const auto clock = [&](double unix_s) {
        return clock_text(static_cast<TimeUs>(std::llround(unix_s * 1e6)), bench.day().series.time_zone,
                          true);
    };
    return bench.speech().range(clock(span.start_unix_s), clock(span.end_unix_s));
}

std::string strip_words(const Bench& bench) {
    const Speech& say = bench.speech();
    const std::string name = say(name_for(*bench.alarm()));
    if (!bench.book().counted())
        return say(Text::bench_strip,
                   {name, say(bench.busy() ? Text::bench_counting : Text::bench_not_counted)});
    const std::string at = cursor_words(bench);
    if (!at.empty()) return say(Text::bench_strip, {name, at});
    return say(Text::bench_strip,
               {name, say(source_word_for(bench.book().truth(bench.machine(), *bench.alarm())))});
}

std::vector<std::array<std::string, 3>> told_rows(const Bench& bench) {
    const Speech& say = bench.speech();
    const std::string name = say(name_for(*bench.alarm()));
    std::vector<std::array<std::string, 3>> rows = {
        {bench.together() ? say(Text::bench_of_all, {name}) : name, say(Text::bench_before),
         say(Text::bench_after)}};
    for (const Text row : {Text::bench_row_due, Text::bench_row_told, Text::bench_row_missed,
                           Text::bench_row_median, Text::bench_row_longest, Text::bench_row_alarms,
                           Text::bench_row_nothing, Text::bench_row_idle, Text::bench_row_hours})
        rows.push_back({say(row), "", ""});
    if (!bench.book().counted()) return rows;
    for (std::size_t side = 0; side < 2; ++side) {
        const std::vector<std::string> cells = cells_of(bench, side);
        for (std::size_t i = 0; i < cells.size(); ++i) rows[i + 1][side + 1] = cells[i];
    }
    return rows;
}

std::string no_curve_words(const Bench& bench) {
    const Speech& say = bench.speech();
    const AlarmBook& book = bench.book();
    if (!book.counted()) return say(bench.busy() ? Text::bench_counting : Text::bench_not_counted);
    if (book.after().sum.known_h <= 0.0) return say(Text::bench_curve_unknown);
    if (book.after().sum.episodes <= 0.0) return say(Text::bench_curve_nothing_due);
    if (!book.page().parameter) return say(Text::bench_curve_replays);
    if (book.curve() == nullptr) return say(Text::bench_counting);
    return {};
}

std::string sureness_words(const Bench& bench) {
    const Speech& say = bench.speech();
    if (bench.book().table().on.size() > 1) return say(Text::bench_sure);
    return say(bench.day().day.machines.size() > 1 ? Text::bench_unsure_one : Text::bench_unsure_day);
}

std::string point_words(const Bench& bench, double value, const sim::AlarmFigures& figures) {
    const Speech& say = bench.speech();
    const ParameterInfo& info = kParameterTable[*bench.book().page().parameter];
    const double delay_s = of(figures, sim::AlarmFigure::delay_median_s);
    return say(Text::bench_point, {number_text(say, static_cast<float>(value), info.decimals),
                                   say.percent(of(figures, sim::AlarmFigure::detection)),
                                   say.number(of(figures, sim::AlarmFigure::false_per_h), kPerHourDecimals),
                                   seconds(say, delay_s)});
}

}  // namespace podrate::ui
