// What all machines of one simulated rest of a day share, and what is drawn of each machine beforehand.
#pragma once

#include <vector>

#include "plan/gang_model.hpp"
#include "plan/path_random.hpp"

namespace podrate::sim {

struct DrawnMove {
    double at_s = 0.0;      // after now
    double ln_field = 0.0;  // of the field it leads to
};

struct DrawnTip {
    double wait_s = 0.0;
    double tip_s = 0.0;
};

struct DrawnMachine {
    double ln_rate = 0.0;  // kg/s of work
    double short_stops_per_s = 0.0;
    double breakdowns_per_s = 0.0;
};

struct PathDraws {
    std::vector<DrawnMachine> machines;
    double ln_field = 0.0;  // of the field where they are
    std::vector<DrawnMove> moves;
    std::vector<DrawnTip> tips;  // that this path draws from
    double short_ln_mean_s = 0.0;
    double breakdown_ln_mean_s = 0.0;
    double move_ln_mean_s = 0.0;
};

// `for_s`: how long the rest of the day is.
PathDraws draw_path(const GangModel& model, std::uint64_t seed, std::uint64_t path, double for_s);

}  // namespace podrate::sim
