#include "plan/speed_cost.hpp"

#include <algorithm>

#include "log/units.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr double kMostOfRated = 3.0;  // a feed beyond that is no feed

}  // namespace

SpeedCost::SpeedCost(const MachineResult& machine) : curve_(machine.curve) {
    const Parameters& p = machine.parameters;
    const double harvesting_s = machine.seconds(WorkState::harvesting);
    if (harvesting_s <= 0.0) return;
    rate_kgps_ = static_cast<double>(machine.last.harvested_kg) / harvesting_s;
    const double feed_per_pea = machine.feed_per_pea > Real(0) ? static_cast<double>(machine.feed_per_pea)
                                                               : 1.0 + static_cast<double>(p.haulm_ratio);
    const auto rated_kgps = static_cast<double>(p.rated_feed_kgps);
    feed_kgps_ = rate_kgps_ * feed_per_pea;
    for (int i = 0; i < 40; ++i) {
        feed_kgps_ = std::min(rate_kgps_ * feed_per_pea / (1.0 - lost_share(feed_kgps_, 1.0)),
                              kMostOfRated * rated_kgps);
    }
    const double speed_mps =
        static_cast<double>(machine.last.area_m2) / static_cast<double>(p.width_m) / harvesting_s;
    most_ = rated_kgps / std::max(feed_kgps_, 1e-3);
    if (speed_mps > 0.0) most_ = std::min(most_, static_cast<double>(p.speed_most_mps) / speed_mps);
    most_ = std::max(most_, 1.0);
    if (machine.lost.collected_kg > Real(0)) ln_hazard_sd_ = static_cast<double>(machine.lost.ln_hazard_sd);
}

double SpeedCost::lost_share(double feed_kgps, double hazard_factor) const {
    const double hazard = hazard_factor * static_cast<double>(curve_.hazard(static_cast<Real>(feed_kgps)));
    return 1.0 - (1.0 - static_cast<double>(curve_.picking_share)) * math::exp(-hazard);
}

double SpeedCost::held(double speed_factor) const {
    return std::min(speed_factor, most_);
}

double SpeedCost::pace(double speed_factor) const {
    const double s = held(speed_factor);
    return s * (1.0 - lost_share(s * feed_kgps_, 1.0)) / (1.0 - lost_share(feed_kgps_, 1.0));
}

LostShare SpeedCost::lost(double speed_factor) const {
    const double feed_kgps = held(speed_factor) * feed_kgps_;
    const double reach = math::exp(kReach90 * ln_hazard_sd_);
    return {lost_share(feed_kgps, 1.0), lost_share(feed_kgps, 1.0 / reach), lost_share(feed_kgps, reach)};
}

}  // namespace podrate::sim
