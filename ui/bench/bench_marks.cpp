// The chosen alarm: episodes marked and written, going from one surprise to the next.
#include <algorithm>
#include <cmath>

#include "bench/bench.hpp"
#include "bench/told_words.hpp"
#include "log/problem.hpp"
#include "model/words.hpp"

namespace podrate::ui {
namespace {

constexpr std::size_t kMostMarkNote = 120;
constexpr double kWrittenS = 0.1;  // times are written to that

double as_written_s(TimeUs at_us) {
    return kWrittenS * std::round(static_cast<double>(at_us) / 1e6 / kWrittenS);
}

}  // namespace

bool Bench::press_alarm(const KeyPress& press) {
    switch (press.key) {
        case Key::e: press.shift ? mark_none() : begin_or_end_mark(); return true;
        case Key::d: drop_mark(); return true;
        case Key::w: write_marks(); return true;
        case Key::j: jump(press.shift); return true;
        case Key::v:
            together_ = !together_;
            look_up();
            return true;
        default: return false;
    }
}

void Bench::go_to(double at_ms) {
    window_.set_cursor(at_ms);
    const TimeRange& shown = window_.shown();
    if (at_ms < shown.from_ms || at_ms >= shown.to_ms) window_.pan(at_ms - shown.middle_ms());
}

void Bench::sweep_mark(double at_ms, bool begins) {
    if (!alarm_ || typing()) return;
    if (begins) mark_ = MarkBegun{at_ms, at_ms};
    if (mark_) mark_->to_ms = at_ms;
}

// A press that did not move is a click.
void Bench::end_sweep() {
    if (!mark_ || typing()) return;
    if (mark_->from_ms == mark_->to_ms) {
        go_to(mark_->from_ms);
        mark_.reset();
        return;
    }
    begin_or_end_mark();
}

// The first press begins an episode at the cursor, the second ends it.
void Bench::begin_or_end_mark() {
    if (!day_->result.machines[machine_].usable) return;
    const bool swept = mark_ && mark_->from_ms != mark_->to_ms;
    if (!swept) {
        if (!window_.cursor_ms()) {
            note_ = say_(Text::bench_mark_no_cursor);
            return;
        }
        if (!mark_ || mark_->from_ms == *window_.cursor_ms()) {
            mark_ = MarkBegun{*window_.cursor_ms(), *window_.cursor_ms()};
            note_ = say_(Text::bench_mark_begun);
            return;
        }
        mark_->to_ms = *window_.cursor_ms();
    }
    if (!episodes_take_notes(day_->folder)) return take_mark("");
    words_ = TypedLine(kMostMarkNote);
    typing_ = BenchTyping::mark_note;
    swallow_ = !swept;
}

TypedEpisode Bench::new_mark() const {
    TypedEpisode mark;
    mark.episode.source = sim::EpisodeSource::marked;
    mark.episode.machine = day_->day.machines[machine_].id;
    mark.episode.alarm = *alarm_;
    return mark;
}

void Bench::take_mark(const std::string& note) {
    if (typing_ == BenchTyping::mark_note) end_typing();
    const double from_ms = std::min(mark_->from_ms, mark_->to_ms);
    const double to_ms = std::max(mark_->from_ms, mark_->to_ms);
    mark_.reset();
    const std::vector<Millis>& rows = day_->series.machines[machine_].kept_ms;
    if (rows.empty() || to_ms < static_cast<double>(rows.front()) ||
        from_ms > static_cast<double>(rows.back())) {
        note_ = say_(Text::bench_mark_outside);
        return;
    }
    TypedEpisode mark = new_mark();
    mark.note = note;
    mark.episode.start_unix_s = as_written_s(day_->series.time_us(from_ms));
    mark.episode.end_unix_s = as_written_s(day_->series.time_us(to_ms));
    note_ = say_(
        Text::bench_marked,
        {say_(name_for(*alarm_)), span_words(*this, {mark.episode.start_unix_s, mark.episode.end_unix_s})});
    book_.mark(std::move(mark));
}

// Somebody has looked at this machine's day: the chosen alarm had nothing to tell.
void Bench::mark_none() {
    if (!day_->result.machines[machine_].usable) return;
    mark_.reset();
    TypedEpisode mark = new_mark();
    mark.episode.none = true;
    note_ = say_(Text::bench_marked_none, {say_(name_for(*alarm_)), mark.episode.machine});
    book_.mark(std::move(mark));
}

void Bench::drop_mark() {
    if (mark_) {
        mark_.reset();
    } else if (!book_.take_back()) {
        note_ = say_(Text::bench_no_mark);
    }
}

void Bench::write_marks() {
    if (book_.marks().empty()) {
        note_ = say_(Text::bench_no_mark);
        return;
    }
    try {
        const std::filesystem::path path = book_.write();
        note_ = book_.refusals().empty() ? say_(Text::saved_as, {path.string()}) : book_.refusals().front();
    } catch (const sim::RefusedInput& refused) {
        note_ = say_(Text::not_saved, {refused.what()});
    }
}

// To the next episode that was missed or alarm that came for nothing; behind the last one begins the first.
void Bench::jump(bool back) {
    if (!book_.counted()) return;
    const sim::AlarmOutcomes outcomes = book_.outcomes(true);
    std::vector<double> at_ms;
    const auto add = [&](double unix_s) {
        at_ms.push_back((unix_s - static_cast<double>(day_->series.origin_us) / 1e6) * 1e3);
    };
    for (std::size_t i = 0; i < outcomes.due.size(); ++i) {
        if (outcomes.told_after_s[i] < 0.0) add(outcomes.due[i].start_unix_s);
    }
    for (std::size_t i = 0; i < outcomes.alarms.size(); ++i) {
        if (outcomes.for_nothing[i]) add(outcomes.alarms[i].start_unix_s);
    }
    if (at_ms.empty()) {
        note_ = say_(Text::bench_no_surprise);
        return;
    }
    std::sort(at_ms.begin(), at_ms.end());
    constexpr double kSameMs = 1.0;
    const double now_ms = window_.cursor_ms().value_or(back ? window_.whole().to_ms : -1.0);
    double to_ms = back ? at_ms.back() : at_ms.front();
    for (const double one : at_ms) {
        if (back && one < now_ms - kSameMs) to_ms = one;
        if (!back && one > now_ms + kSameMs) {
            to_ms = one;
            break;
        }
    }
    go_to(to_ms);
}

std::vector<std::string> Bench::unsaved_words() const {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < stands_.size(); ++i) {
        const EditedParameters& edited = stands_[i].edited;
        if (edited.unsaved())
            lines.push_back(
                say_(Text::unsaved_values, {day_->day.machines[i].id, std::to_string(edited.changes())}));
    }
    if (!book_.marks().empty())
        lines.push_back(say_(Text::unsaved_marks, {std::to_string(book_.marks().size())}));
    return lines;
}

}  // namespace podrate::ui
