// What keys do on the bench.
#include <utility>

#include "bench/bench.hpp"
#include "input/chart_keys.hpp"

namespace podrate::ui {
namespace {

constexpr int kPageRows = 10;

}  // namespace

void Bench::type(char32_t sign) {
    if (std::exchange(swallow_, false) || !typing()) return;
    TypedLine& line = typing_ == BenchTyping::value ? number_.line() : words_;
    line.type(sign);
    if (typing_ != BenchTyping::filter) return;
    list_.set_filter(line.text());
    sift();
}

void Bench::press_typing(const KeyPress& press) {
    TypedLine& line = typing_ == BenchTyping::value ? number_.line() : words_;
    switch (press.key) {
        case Key::backspace: line.backspace(); break;
        case Key::remove: line.remove(); break;
        case Key::left: line.left(); break;
        case Key::right: line.right(); break;
        case Key::home: line.to_start(); break;
        case Key::end: line.to_end(); break;
        case Key::escape:
            if (typing_ == BenchTyping::filter) line = TypedLine();
            if (typing_ == BenchTyping::mark_note) mark_.reset();
            if (typing_ != BenchTyping::filter) end_typing();
            break;
        case Key::tab:
        case Key::enter:
            if (typing_ == BenchTyping::value) return put_typed_value();
            if (typing_ == BenchTyping::name) return take_name();
            if (typing_ == BenchTyping::note) return save();
            if (typing_ == BenchTyping::mark_note) return take_mark(words_.text());
            break;
        default: return;
    }
    if (typing_ != BenchTyping::filter) return;
    list_.set_filter(line.text());
    sift();
    const bool done = press.key == Key::escape || press.key == Key::enter || press.key == Key::tab;
    if (done) end_typing();
}

void Bench::press_list(const KeyPress& press) {
    const int digit = digit_of(press.key);
    if (digit >= 0 && list_.chosen()) {
        edit_value();
        number_.line().type(static_cast<char32_t>('0' + digit));
        swallow_ = true;
        return;
    }
    const auto all = static_cast<int>(kParameterCount);
    switch (press.key) {
        case Key::up: list_.step(-1); break;
        case Key::down: list_.step(1); break;
        case Key::page_up: list_.step(-kPageRows); break;
        case Key::page_down: list_.step(kPageRows); break;
        case Key::home: list_.step(-all); break;
        case Key::end: list_.step(all); break;
        case Key::enter: edit_value(); break;
        case Key::right:
        case Key::plus: step_value(true, press.shift && press.key == Key::right); break;
        case Key::left:
        case Key::minus: step_value(false, press.shift); break;
        case Key::remove:
            if (list_.chosen()) stands_[machine_].edited.reset(*list_.chosen());
            changed();
            break;
        default: break;
    }
    chosen_moved();
}

void Bench::press(const KeyPress& press) {
    swallow_ = false;
    if (press.key == Key::none || press.key == Key::modifier) return;
    note_.clear();
    if (typing()) return press_typing(press);
    EditedParameters& edited = stands_[machine_].edited;
    switch (press.key) {
        case Key::tab: pane_ = pane_ == BenchPane::list ? BenchPane::charts : BenchPane::list; return;
        case Key::z:
            if (press.shift ? edited.redo() : edited.undo()) changed();
            return;
        case Key::y:
            if (edited.redo()) changed();
            return;
        case Key::r: edited.reset_all(); return changed();
        case Key::f:
            words_ = TypedLine();
            words_.begin(list_.filter());
            typing_ = BenchTyping::filter;
            swallow_ = true;
            return;
        case Key::c: list_.set_changed_only(!list_.changed_only()); return sift();
        case Key::escape:
            if (mark_) return mark_.reset();
            list_.set_filter("");
            list_.set_changed_only(false);
            return sift();
        case Key::g: ++first_chart_; return make_comparison();
        case Key::t: table_ = static_cast<BenchTable>((static_cast<int>(table_) + 1) % kBenchTables); return;
        case Key::m: return next_machine();
        case Key::s: return begin_saving();
        case Key::b: return take_as_before();
        case Key::o: return open_next(press.shift);
        case Key::p: saving_ = Saving::picture; return;
        case Key::x: return ask_table();
        default: break;
    }
    if (alarm_ && press_alarm(press)) return;
    const bool of_list = press.key == Key::enter || press.key == Key::remove;
    if (pane_ == BenchPane::list || of_list) return press_list(press);
    window_.apply(chart_action_of(press));
}

}  // namespace podrate::ui
