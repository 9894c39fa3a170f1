// The threshing drum: dead time, first-order spread, and a loss that grows with the feed.
#pragma once

#include <vector>

#include "podrate/filter/loss_curve.hpp"
#include "synth/scenario.hpp"

namespace podrate::sim {

class Drum {
  public:
    Drum(const ScenarioMachine& machine, double dt_s);

    // One step: `area_rate_m2ps` swept in crop of `standing_kgpm2`. Returns the flow into the hopper, kg/s.
    double step(double area_rate_m2ps, double standing_kgpm2);

    [[nodiscard]] double loss_share() const { return loss_share_; }  // at the present feed
    [[nodiscard]] double lost_kgps() const { return lost_kgps_; }

  private:
    LossCurve<double> curve_;
    double feed_per_pea_;
    double kept_;
    std::vector<double> on_the_way_;  // flow into the drum's exit, a dead time long
    std::size_t next_ = 0;
    double flow_kgps_ = 0.0;
    double loss_share_ = 0.0;
    double lost_kgps_ = 0.0;
};

}  // namespace podrate::sim
