// The forecast of a gang's rest of the day, as figures.
#pragma once

#include <string>
#include <vector>

#include "podrate/sample.hpp"

namespace podrate::sim {

// Moments of the rest of the day: now, and `steps` more, evenly up to its end.
struct PathGrid {
    double step_s = 0.0;
    std::size_t steps = 0;
    [[nodiscard]] std::size_t points() const { return steps + 1; }
    [[nodiscard]] double end_s() const { return step_s * static_cast<double>(steps); }
};

// Of delivered tonnes since the logs began.
struct Quantiles {
    double low90 = 0.0;  // 5 %
    double low50 = 0.0;  // 25 %
    double median = 0.0;
    double high50 = 0.0;  // 75 %
    double high90 = 0.0;  // 95 %
};

// By how much the machines that are left would have to drive faster while they harvest.
struct SpeedNeed {
    enum class Verdict {
        slower_will_do,  // the plan has an even chance at `factor`, which is 1 or less
        faster,          // ... above 1
        out_of_reach,    // not even at the machines' limits
    };
    Verdict verdict = Verdict::out_of_reach;
    double factor = 1.0;
    double limit = 1.0;  // the fastest of those that work, in the mean: the rated feed or their fastest speed
    // Of the peas taken in, points more than now, with the 90 % range of the loss curve's doubt; and what
    // more is left on the ground for what is still to be delivered, t.
    double more_lost_points = 0.0;
    double more_lost_low = 0.0;
    double more_lost_high = 0.0;
    double more_lost_t = 0.0;
};

struct PlanCase {
    enum class Kind { all, without, repair };
    Kind kind = Kind::all;
    std::string machine;                 // that is missing, or under repair for repair_min from now on
    std::vector<Quantiles> delivered_t;  // at the points of the grid
    double chance = 0.0;                 // share of the paths that meet the plan at its end
    SpeedNeed need;
};

// When a machine must be back at work so that the plan is met.
struct BackBy {
    enum class Verdict { by, too_late, not_needed };
    Verdict verdict = Verdict::by;
    TimeUs time_us = 0;
};

struct MachineBack {
    std::string machine;
    bool stopped_now = false;
    BackBy even;         // with a chance of 50 %
    BackBy nine_in_ten;  // of 90 %
};

struct Forecast {
    TimeUs now_us = 0;
    TimeUs end_us = 0;  // of the plan
    PathGrid grid;
    double delivered_t = 0.0;
    double in_hoppers_t = 0.0;
    double planned_now_t = 0.0;
    double planned_end_t = 0.0;
    double pace_tph = 0.0;    // into the hoppers in the last hour, or since the logs began
    double needed_tph = 0.0;  // from now to the plan's end
    double seed = 0.0;
    std::size_t paths = 0;
    double repair_min = 0.0;
    std::vector<PlanCase> cases;  // all; without each; each under repair
    std::vector<MachineBack> back;

    [[nodiscard]] TimeUs point_us(std::size_t point) const {
        return now_us + static_cast<TimeUs>(1e6 * grid.step_s * static_cast<double>(point));
    }
};

}  // namespace podrate::sim
