// What another speed would bring and cost a machine, by its loss curve.
#pragma once

#include "replay/machine_replay.hpp"

namespace podrate::sim {

// A share of the peas taken in, with its 90 % range.
struct LostShare {
    double share = 0.0;
    double low = 0.0;
    double high = 0.0;
};

class SpeedCost {
  public:
    // From the machine's mean rate while it harvested; its curve as known at its log's end.
    explicit SpeedCost(const MachineResult& machine);

    // A speed of so many times the present mean, held to where the drum has its rated feed and to the
    // machine's speed_most_mps, but never below the present one.
    [[nodiscard]] double held(double speed_factor) const;
    // kg/s into the hopper against now, while it harvests.
    [[nodiscard]] double pace(double speed_factor) const;
    [[nodiscard]] LostShare lost(double speed_factor) const;
    [[nodiscard]] double rate_kgps() const { return rate_kgps_; }

  private:
    [[nodiscard]] double lost_share(double feed_kgps, double hazard_factor) const;
    LossCurve<Real> curve_;
    double rate_kgps_ = 0.0;
    double feed_kgps_ = 0.0;
    double most_ = 1.0;
    double ln_hazard_sd_ = 0.5;
};

}  // namespace podrate::sim
