#include "series/time_window.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr double kKeyZoom = 1.5;
constexpr double kKeyPanShare = 0.125;
constexpr double kCursorShare = 0.01;
constexpr double kAllShare = 1.0 - 1e-9;  // but for rounding

}  // namespace

TimeWindow::TimeWindow(TimeRange whole) : whole_(whole) {
    whole_.to_ms = std::max(whole.to_ms, whole.from_ms + kLeastSpanMs);
    shown_ = whole_;
}

void TimeWindow::change(TimeRange to, Move move) {
    const double span_ms = std::clamp(to.span_ms(), kLeastSpanMs, whole_.span_ms());
    to.from_ms = std::clamp(to.from_ms, whole_.from_ms, whole_.to_ms - span_ms);
    to.to_ms = to.from_ms + span_ms;
    if (span_ms > whole_.span_ms() * kAllShare) to = whole_;
    if (to == shown_) return;
    if (move != last_ || move == Move::show) {
        if (before_.size() == kMostUndo) before_.erase(before_.begin());
        before_.push_back(shown_);
    }
    last_ = move;
    shown_ = to;
}

void TimeWindow::zoom(double about_ms, double factor) {
    if (!(factor > 0.0)) return;
    const double span_ms = std::clamp(shown_.span_ms() / factor, kLeastSpanMs, whole_.span_ms());
    const double share = (about_ms - shown_.from_ms) / shown_.span_ms();
    const double from_ms = about_ms - share * span_ms;
    change({from_ms, from_ms + span_ms}, Move::zoom);
}

void TimeWindow::pan(double by_ms) {
    change({shown_.from_ms + by_ms, shown_.to_ms + by_ms}, Move::pan);
}

void TimeWindow::show(TimeRange range) {
    change(range, Move::show);
}

bool TimeWindow::undo() {
    last_ = Move::none;
    if (before_.empty()) return false;
    shown_ = before_.back();
    before_.pop_back();
    return true;
}

void TimeWindow::set_cursor(std::optional<double> at_ms) {
    if (at_ms) at_ms = std::clamp(*at_ms, whole_.from_ms, whole_.to_ms);
    cursor_ms_ = at_ms;
}

double TimeWindow::zoom_about_ms() const {
    const bool in_view = cursor_ms_ && *cursor_ms_ >= shown_.from_ms && *cursor_ms_ <= shown_.to_ms;
    return in_view ? *cursor_ms_ : shown_.middle_ms();
}

// A cursor led out of view takes the view along.
void TimeWindow::step_cursor(double by_share) {
    set_cursor(zoom_about_ms() + by_share * shown_.span_ms());
    if (*cursor_ms_ < shown_.from_ms) pan(*cursor_ms_ - shown_.from_ms);
    if (*cursor_ms_ > shown_.to_ms) pan(*cursor_ms_ - shown_.to_ms);
}

void TimeWindow::apply(ChartAction action) {
    const double span_ms = shown_.span_ms();
    switch (action) {
        case ChartAction::none: break;
        case ChartAction::nearer: zoom(zoom_about_ms(), kKeyZoom); break;
        case ChartAction::farther: zoom(zoom_about_ms(), 1.0 / kKeyZoom); break;
        case ChartAction::earlier: pan(-kKeyPanShare * span_ms); break;
        case ChartAction::later: pan(kKeyPanShare * span_ms); break;
        case ChartAction::page_earlier: pan(-span_ms); break;
        case ChartAction::page_later: pan(span_ms); break;
        case ChartAction::to_start: show({whole_.from_ms, whole_.from_ms + span_ms}); break;
        case ChartAction::to_end: show({whole_.to_ms - span_ms, whole_.to_ms}); break;
        case ChartAction::show_all: show_all(); break;
        case ChartAction::cursor_back: step_cursor(-kCursorShare); break;
        case ChartAction::cursor_on: step_cursor(kCursorShare); break;
        case ChartAction::undo: undo(); break;
    }
}

}  // namespace podrate::ui
