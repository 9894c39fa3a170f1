// Peas standing, as a random field over the plane.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "synth/scenario.hpp"

namespace podrate::sim {

// ln of the crop is Gaussian with exponential covariance exp(-d/L), made of random plane waves (spectral
// method). Waves shorter than a swath are left out: a viner averages over its width.
class CropField {
  public:
    CropField(const ScenarioField& field, std::uint64_t seed);
    // Peas standing at a place, kg/m2.
    [[nodiscard]] double standing_kgpm2(EastNorth place) const;

  private:
    struct Wave {
        double east_per_m;
        double north_per_m;
        double phase_rad;
    };
    std::vector<Wave> waves_;
    double ln_mean_;
    double amplitude_;
};

}  // namespace podrate::sim
