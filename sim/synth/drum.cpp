#include "synth/drum.hpp"

#include <cmath>

namespace podrate::sim {

Drum::Drum(const ScenarioMachine& machine, double dt_s)
    : feed_per_pea_(1.0 + machine.haulm_ratio),
      kept_(math::exp(-dt_s / machine.drum_lag_s)),
      on_the_way_(static_cast<std::size_t>(std::lround(machine.drum_dead_time_s / dt_s)), 0.0) {
    curve_.picking_share = machine.picking_loss_share;
    curve_.level_a = LossCurve<double>::level_for(machine.drum_loss_share);
    curve_.rated_feed_kgps = machine.rated_feed_kgps;
    curve_.steepness_kgps = machine.feed_steepness_kgps;
}

double Drum::step(double area_rate_m2ps, double standing_kgpm2) {
    const double crop_kgps = area_rate_m2ps * standing_kgpm2;
    loss_share_ = curve_.loss_share(feed_per_pea_ * crop_kgps);
    lost_kgps_ = crop_kgps * loss_share_;
    const double arriving_kgps = on_the_way_[next_];
    on_the_way_[next_] = crop_kgps - lost_kgps_;
    next_ = (next_ + 1) % on_the_way_.size();
    flow_kgps_ = kept_ * flow_kgps_ + (1.0 - kept_) * arriving_kgps;
    return flow_kgps_;
}

}  // namespace podrate::sim
