// An estimate in full precision, so that two can be held against each other to the last bit.
#pragma once

#include <cstdio>
#include <string>

#include "podrate/estimate.hpp"

namespace podrate::test {

inline std::string bits_of(const Estimate& e) {
    std::string text;
    char number[64];
    const Advice& a = e.advice;
    const double reals[] = {e.mass_kg,
                            e.mass_sd_kg,
                            e.flow_kgps,
                            e.flow_sd_kgps,
                            e.yield_kgpm2,
                            e.yield_sd_kgpm2,
                            e.loss_share,
                            e.loss_low,
                            e.loss_high,
                            e.drum_loss_share,
                            e.drum_loss_low,
                            e.drum_loss_high,
                            e.picking_loss_share,
                            e.picking_loss_low,
                            e.picking_loss_high,
                            e.ground_kgpm2,
                            e.fold,
                            e.loss_learnt,
                            e.speed_spread,
                            e.speed_mps,
                            e.harvested_kg,
                            e.harvested_sd_kg,
                            e.area_m2,
                            e.load_kg,
                            e.level_share,
                            e.distance_to_full_m,
                            e.time_to_full_s,
                            a.speed.speed_mps,
                            a.speed.low_mps,
                            a.speed.high_mps,
                            a.under_limit.speed_mps,
                            a.for_rate.speed_mps,
                            a.faster.gained_kgps,
                            a.faster.ground_kgpm2,
                            a.slower.gained_kgps,
                            a.slower.ground_kgpm2};
    for (const double real : reals) {
        std::snprintf(number, sizeof number, "%a ", real);
        text += number;
    }
    std::snprintf(number, sizeof number, "%lld %d %d %d %d %d %d %d %lld", static_cast<long long>(e.time_us),
                  e.started ? 1 : 0, static_cast<int>(e.state), static_cast<int>(e.faults),
                  static_cast<int>(e.alarms), static_cast<int>(e.tray_checks), e.loss_sensor ? 1 : 0,
                  static_cast<int>(a.binding), static_cast<long long>(e.oldest_cut_us));
    return text + number;
}

}  // namespace podrate::test
