// One chart of the stack: some lines of one unit, and all that painting them needs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "series/axis_ticks.hpp"
#include "series/day_series.hpp"
#include "series/reading.hpp"
#include "series/time_window.hpp"
#include "series/trace.hpp"

namespace podrate::ui {

inline constexpr int kMostLines = 4;  // that colours and shapes tell apart

struct ChartLine {
    const MachineSeries* machine = nullptr;
    const Column* column = nullptr;
    std::string name;  // "viner_1", or what tells it from the others
};

struct Chart {
    Measure measure = Measure::load_rate;
    std::string title;         // "Load rate, t/h"
    std::string banded_title;  // the same, telling what the shade is
    Quantity quantity = Quantity::rate;
    Speech say;
    bool from_zero = false;
    std::vector<ChartLine> lines;  // at most kMostLines, of one quantity
};

// That measure of each machine that has it, the first kMostLines of them. Lines point into `day`.
Chart chart_of(const DaySeries& day, Measure measure, const Speech& say);
// Without a line yet.
Chart bare_chart(Measure measure, const Speech& say);

// A chart at one width and range. Kept from frame to frame for its memory.
struct ChartPicture {
    ValueAxis axis;                                 // in the unit that is shown
    std::vector<std::vector<TraceMark>> traces;     // one for each line
    std::vector<std::optional<Reading>> at_cursor;  // one for each line; nothing without a cursor
};

// `most_ticks`: of the value axis, 3 or more. A band may stretch the axis by as much as the line takes, to
// either side: a wide doubt shall not press the line flat.
void make_picture(const Chart& chart, const TimeWindow& window, int width_px, int most_ticks,
                  ChartPicture& picture);

}  // namespace podrate::ui
