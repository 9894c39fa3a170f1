// Replays a day into columns, in a way that can be called off.
#pragma once

#include <atomic>
#include <functional>
#include <optional>

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

// All of it by a replay of its own. Nothing where `cancel` was set before it was done: all threads have ended
// and all memory is given back then. Throws what a replay throws.
std::optional<DaySeries> load_day_series(const sim::Day& day, const LoadProgress& progress,
                                         const std::atomic<bool>& cancel);

}  // namespace podrate::ui
