// How much the weight shakes, followed apart for a moving and a standing machine.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"

namespace podrate {

class NoiseFollower {
  public:
    explicit NoiseFollower(const Parameters& parameters);

    // Measurement noise variance to use now, kg2.
    [[nodiscard]] Real variance_kg2(bool moving) const { return moving ? moving_ : still_; }

    // Learns from an innovation: its square beyond what the state's own doubt explains. `dt_s`: since the
    // last reading.
    void learn(bool moving, Real dt_s, Real residual_kg, Real state_variance_kg2);

  private:
    Real moving_;
    Real still_;
};

}  // namespace podrate
