// Reads what a synthetic day's plant was, second by second.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// One second of truth.
struct TrueSecond {
    double unix_s = 0.0;
    double mass_kg = 0.0;
    double flow_kgps = 0.0;
    int state = 0;  // a WorkState
    double area_rate_m2ps = 0.0;
    double standing_kgpm2 = 0.0;
    double feed_kgps = 0.0;  // haulm and peas taken in
    double loss_share = 0.0;
    double drum_loss_share = 0.0;  // of the peas standing; 0 where not told
    double speed_mps = 0.0;
    double east_m = 0.0;
    double north_m = 0.0;
    std::size_t field = 0;
    double cut_m2 = 0.0;  // so far, and the peas of it that reach the hopper; 0 where not told
    double cut_kg = 0.0;
    bool moving = false;
    bool tipping = false;
};

struct TruePlant {
    ScenarioDrum drum;
    ScenarioScale scale;
    ScenarioSenses senses;
    double width_m = 3.3;
    std::vector<ScenarioField> fields;
    std::vector<TrueSecond> seconds;
    bool drum_loss_known = false;  // only scenarios with truth_apart tell it
    bool swath_known = false;      // only scenarios with truth_swath tell what was cut so far
    std::optional<LatLon> origin;  // of the plane; days made before it was written lack it
};

// From truth/model.json and truth/ID.csv. Throws RefusedInput where they are missing or not whole.
TruePlant read_true_plant(const std::filesystem::path& day_folder, const std::string& id, double width_m);

}  // namespace podrate::sim
