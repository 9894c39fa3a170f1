// Saves what a view shows, when a key asked for it.
#pragma once

#include <filesystem>
#include <functional>

#include "bench/bench.hpp"
#include "day/day_desk.hpp"
#include "raster/rasteriser.hpp"

namespace podrate::ui {

// Into `folder`, under a name that is free; the view tells where, or why not. `picture` draws what is seen.
void save_seen(DayDesk& desk, const std::filesystem::path& folder, const std::function<Image()>& picture);
void save_seen(Bench& bench, const std::filesystem::path& folder, const std::function<Image()>& picture);

}  // namespace podrate::ui
