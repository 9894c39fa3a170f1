// What stands before and after the replay that fills a day's columns (model/open_day).
#pragma once

#include <functional>

#include "day/day.hpp"
#include "replay/day_replay.hpp"
#include "series/day_series.hpp"

namespace podrate::ui {

// Share of all bytes read, 0 to 1. Called from several threads, one at a time.
using LoadProgress = std::function<void(double share)>;

// Makes room for the machines of a day; a SeriesRecorder fills each.
void begin_series(const sim::Day& day, DaySeries& series);

// After the replay: all times count from the same moment then. A log that was refused leaves its machine
// without columns and says why.
void end_series(const sim::DayResult& result, DaySeries& series);

}  // namespace podrate::ui
