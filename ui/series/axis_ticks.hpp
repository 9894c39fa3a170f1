// Where the lines of a chart's axes stand, and what is written at them.
#pragma once

#include <string>
#include <vector>

#include "podrate/sample.hpp"
#include "series/pyramid.hpp"
#include "series/time_window.hpp"

namespace podrate::ui {

struct TimeTick {
    double at_ms = 0.0;
    std::string label;  // "14:05"; "14:05:30" and "14:05:30.2" where ticks are that near
};

// At round times of the local clock, at most `most` (2 or more) of them. `origin_us`: what milliseconds count
// from. Where the clock is put forward or back, the ticks stay on its round times.
std::vector<TimeTick> time_ticks(const TimeRange& range, TimeUs origin_us, const std::string& time_zone,
                                 int most);

// What all charts of a stack share below them.
struct TimeAxis {
    std::vector<TimeTick> ticks;
    std::string cursor_label;  // "14:05:30"; empty without a cursor
};
TimeAxis time_axis(const TimeWindow& window, TimeUs origin_us, const std::string& time_zone, int most);

// From `low` to `high` in steps of 1, 2 or 5 times a power of ten; both ends are whole steps.
struct ValueAxis {
    double low = 0.0;
    double high = 1.0;
    double step = 0.5;
    int decimals = 1;  // that tell the ticks apart

    [[nodiscard]] int ticks() const;  // both ends counted
    [[nodiscard]] double tick(int index) const { return low + index * step; }
};

// Holds all of `values`, and zero where `from_zero`. At most `most` (3 or more) ticks. Spans `least` or more,
// so that a line that stands still is no mountain.
ValueAxis value_axis(const Extent& values, bool from_zero, double least, int most);

}  // namespace podrate::ui
