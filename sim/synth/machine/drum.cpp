#include "synth/machine/drum.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {

Drum::Drum(const ScenarioDrum& drum, double dt_s) : told_(drum), dt_s_(dt_s) {
    curve_.picking_share = drum.picking_loss_share;
    curve_.level_a = LossCurve<double>::level_for(drum.loss_share);
    curve_.rated_feed_kgps = drum.rated_feed_kgps;
    curve_.steepness_kgps = drum.feed_steepness_kgps;
}

double Drum::step(double area_rate_m2ps, const CropHere& crop) {
    const double crop_kgps = area_rate_m2ps * crop.standing_kgpm2;
    feed_kgps_ = (1.0 + told_.haulm_ratio * crop.haulm_factor) * crop_kgps;
    loss_share_ = 1.0 - (1.0 - curve_.loss_share(feed_kgps_)) * (1.0 - crop.lodged_loss_share);
    lost_kgps_ = crop_kgps * loss_share_;
    // What the reel leaves never comes to the drum.
    const double picked_share = (1.0 - curve_.picking_share) * (1.0 - crop.lodged_loss_share);
    picking_loss_share_ = 1.0 - picked_share;
    drum_loss_share_ = picked_share * (1.0 - math::exp(-curve_.hazard(feed_kgps_)));
    drum_lost_kgps_ = crop_kgps * drum_loss_share_;

    felt_kgps_ += (feed_kgps_ - felt_kgps_) * std::min(1.0, dt_s_ / told_.lag_s);
    const double slower = 1.0 + told_.load_share * (load() - 1.0);
    const double last = on_the_way_.empty() ? 0.0 : on_the_way_.back().arrives_step;
    const double dead_steps = told_.dead_time_s * slower / dt_s_;
    on_the_way_.push_back(
        {std::max(last, static_cast<double>(step_) + dead_steps), (crop_kgps - lost_kgps_) * dt_s_});
    while (!on_the_way_.empty() && on_the_way_.front().arrives_step <= static_cast<double>(step_) + 0.5) {
        held_kg_ += on_the_way_.front().peas_kg;
        on_the_way_.pop_front();
    }
    ++step_;
    const double out_kg = held_kg_ * (1.0 - math::exp(-dt_s_ / (told_.lag_s * slower)));
    held_kg_ -= out_kg;
    return out_kg / dt_s_;
}

double Drum::holds_kg() const {
    double kg = held_kg_;
    for (const Parcel& parcel : on_the_way_) kg += parcel.peas_kg;
    return kg;
}

}  // namespace podrate::sim
