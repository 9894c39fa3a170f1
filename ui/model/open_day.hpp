// A day that is open in the window: its folder, what its replay said, and all its columns.
#pragma once

#include <atomic>
#include <filesystem>
#include <memory>
#include <optional>

#include "day/day.hpp"
#include "map/map_model.hpp"
#include "model/recording.hpp"
#include "replay/day_replay.hpp"
#include "series/load_series.hpp"

namespace podrate::ui {

struct OpenDay {
    std::filesystem::path folder;
    sim::Day day;
    sim::DayResult result;        // looked back at
    std::optional<MapModel> map;  // nothing where no log tells a place
    Recording recording;
    DaySeries series;
};

// Replays a day's folder through the same core as the cab, once for all views. Nothing where `cancel` was set
// before it was done: all threads have ended then. Throws sim::RefusedInput where nothing of it can be used.
std::unique_ptr<OpenDay> open_day(const std::filesystem::path& folder, const LoadProgress& progress,
                                  const std::atomic<bool>& cancel);

// The same of a day that is known without a folder.
std::unique_ptr<OpenDay> open_day(sim::Day day, const LoadProgress& progress,
                                  const std::atomic<bool>& cancel);

}  // namespace podrate::ui
