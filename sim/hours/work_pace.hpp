// What a machine gathers in an hour of harvest, about a given moment.
#pragma once

#include <optional>
#include <vector>

#include "hours/stretch_track.hpp"

namespace podrate::sim {

// How far before a stretch's start and after its end the rate is looked for.
inline constexpr TimeUs kPaceReachUs = 3600 * kSecondUs;
// Less harvest than this within reach says too little: the whole log's rate is taken.
inline constexpr double kPaceLeastS = 600.0;

class WorkPace {
  public:
    explicit WorkPace(const std::vector<Stretch>& stretches);

    // kg that reached the hopper per second of harvesting, from kPaceReachUs before `start_us` to as long
    // after `end_us`; peas that came in turns and stops from the drum count, time without log does not.
    // Nothing where the log holds no harvest.
    [[nodiscard]] std::optional<double> kgps_about(TimeUs start_us, TimeUs end_us) const;

  private:
    // Sums from the log's start to the end of a stretch.
    struct Mark {
        TimeUs time_us = 0;
        double harvesting_s = 0.0;
        double harvested_kg = 0.0;
    };
    [[nodiscard]] Mark at(TimeUs time_us) const;
    std::vector<Mark> marks_;
};

}  // namespace podrate::sim
