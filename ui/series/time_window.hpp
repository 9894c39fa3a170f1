// The stretch of the day that all charts show, and the moment under the cursor. Mouse and keys come through
// the same functions.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace podrate::ui {

// Milliseconds since the day's first row, [from, to).
struct TimeRange {
    double from_ms = 0.0;
    double to_ms = 0.0;

    [[nodiscard]] double span_ms() const { return to_ms - from_ms; }
    [[nodiscard]] double middle_ms() const { return (from_ms + to_ms) / 2.0; }
    bool operator==(const TimeRange&) const = default;
};

enum class ChartAction : std::uint8_t {
    none,
    nearer,  // zooms about the cursor, or the middle where there is none in view
    farther,
    earlier,  // by an eighth of what is shown
    later,
    page_earlier,  // by all of it
    page_later,
    to_start,
    to_end,
    show_all,
    cursor_back,  // by a hundredth
    cursor_on,
    undo,
};

class TimeWindow {
  public:
    static constexpr double kLeastSpanMs = 1000.0;
    static constexpr std::size_t kMostUndo = 64;

    // Never shows anything outside `whole`, nor less than kLeastSpanMs of it.
    explicit TimeWindow(TimeRange whole);

    [[nodiscard]] const TimeRange& whole() const { return whole_; }
    [[nodiscard]] const TimeRange& shown() const { return shown_; }

    // `factor` above 1: nearer. What is at `about_ms` stays where it is, unless the day ends there.
    void zoom(double about_ms, double factor);
    // Later by that much; earlier where it is negative.
    void pan(double by_ms);
    void show(TimeRange range);
    void show_all() { show(whole_); }

    // Changes of one kind that follow each other are undone as one; this ends such a row, as where a button
    // is released.
    void settle() { last_ = Move::none; }
    // Back to what was shown before the last row of changes. False where there was none.
    bool undo();

    [[nodiscard]] std::optional<double> cursor_ms() const { return cursor_ms_; }
    void set_cursor(std::optional<double> at_ms);

    void apply(ChartAction action);

  private:
    enum class Move : std::uint8_t { none, zoom, pan, show };
    void change(TimeRange to, Move move);
    void step_cursor(double by_share);
    [[nodiscard]] double zoom_about_ms() const;

    TimeRange whole_;
    TimeRange shown_;
    std::vector<TimeRange> before_;  // newest last
    Move last_ = Move::none;
    std::optional<double> cursor_ms_;
};

}  // namespace podrate::ui
