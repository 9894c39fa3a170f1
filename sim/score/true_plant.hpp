// Reads what a synthetic day's plant was, second by second.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "score/bound.hpp"

namespace podrate::sim {

struct TruePlant {
    TrueMachine machine;
    std::vector<TrueCrop> crops;
    std::vector<TrueSecond> seconds;
};

// From truth/model.json and truth/ID.csv. Throws RefusedInput where they are missing or not whole.
TruePlant read_true_plant(const std::filesystem::path& day_folder, const std::string& id, double width_m);

}  // namespace podrate::sim
