// Episodes marked at the desk: what an alarm had to tell, from when to when.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "tune/truth.hpp"

namespace podrate::ui {

struct TypedEpisode {
    sim::Episode episode;
    std::string note;
};

// Whether episodes.csv of that folder has room for notes, or is still to be made.
bool episodes_take_notes(const std::filesystem::path& folder);

// Adds them to episodes.csv of the day's folder behind what stands there: the file whole or not at all.
// Throws sim::RefusedInput. Returns its path.
std::filesystem::path write_episodes(const std::filesystem::path& folder,
                                     const std::vector<TypedEpisode>& episodes);

}  // namespace podrate::ui
