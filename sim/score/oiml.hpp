// Limits of error for a weighed total after OIML R 107 (discontinuous totalising weighers).
#pragma once

namespace podrate::sim {

// As a share of the total, in per cent. From memory: confirm before quoting.
struct OimlLimit {
    const char* name;
    double initial_pct;
    double in_service_pct;
};

inline constexpr OimlLimit kOimlLimits[] = {
    {"0.2", 0.10, 0.20}, {"0.5", 0.25, 0.50}, {"1", 0.50, 1.00}, {"2", 1.00, 2.00}};

}  // namespace podrate::sim
