// The threshing drum: dead time, first-order spread, and a loss that grows with the feed.
#pragma once

#include <deque>

#include "podrate/loss/loss_curve.hpp"
#include "synth/land/crop_field.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class Drum {
  public:
    Drum(const ScenarioDrum& drum, double dt_s);

    // One step: `area_rate_m2ps` swept in that crop. Returns the flow into the hopper, kg/s.
    double step(double area_rate_m2ps, const CropHere& crop);

    [[nodiscard]] double feed_kgps() const { return feed_kgps_; }  // haulm and peas taken in now
    // Shares of all standing peas, at the present feed: left by the reel, lodged ones among them; lost in the
    // drum; both.
    [[nodiscard]] double picking_loss_share() const { return picking_loss_share_; }
    [[nodiscard]] double drum_loss_share() const { return drum_loss_share_; }
    [[nodiscard]] double loss_share() const { return loss_share_; }
    [[nodiscard]] double lost_kgps() const { return lost_kgps_; }
    [[nodiscard]] double drum_lost_kgps() const { return drum_lost_kgps_; }
    // Peas picked that have not come out yet.
    [[nodiscard]] double holds_kg() const;
    // How full it runs against the rated feed, and with that how much slower.
    [[nodiscard]] double load() const { return felt_kgps_ / told_.rated_feed_kgps; }

  private:
    struct Parcel {
        double arrives_step;
        double peas_kg;
    };

    ScenarioDrum told_;
    LossCurve<double> curve_;
    double dt_s_;
    long step_ = 0;
    std::deque<Parcel> on_the_way_;
    double held_kg_ = 0.0;  // threshed, not yet through
    double felt_kgps_ = 0.0;
    double feed_kgps_ = 0.0;
    double picking_loss_share_ = 0.0;
    double drum_loss_share_ = 0.0;
    double loss_share_ = 0.0;
    double lost_kgps_ = 0.0;
    double drum_lost_kgps_ = 0.0;
};

}  // namespace podrate::sim
