// An estimate in full precision, so that two can be held against each other to the last bit.
#pragma once

#include <cstdio>
#include <string>

#include "podrate/estimate.hpp"

namespace podrate::test {

inline std::string bits_of(const Estimate& e) {
    std::string text;
    char number[64];
    const double reals[] = {
        e.mass_kg,    e.mass_sd_kg, e.flow_kgps,   e.flow_sd_kgps,       e.yield_kgpm2,   e.yield_sd_kgpm2,
        e.loss_share, e.loss_low,   e.loss_high,   e.speed_mps,          e.harvested_kg,  e.harvested_sd_kg,
        e.area_m2,    e.load_kg,    e.level_share, e.distance_to_full_m, e.time_to_full_s};
    for (const double real : reals) {
        std::snprintf(number, sizeof number, "%a ", real);
        text += number;
    }
    std::snprintf(number, sizeof number, "%lld %d %d %d %lld", static_cast<long long>(e.time_us),
                  e.started ? 1 : 0, static_cast<int>(e.state), static_cast<int>(e.faults),
                  static_cast<long long>(e.oldest_cut_us));
    return text + number;
}

}  // namespace podrate::test
