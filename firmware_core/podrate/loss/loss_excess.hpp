// How far the drum's loss here is above or below its curve, as the loss sensor tells.
#pragma once

#include "podrate/real.hpp"

namespace podrate {

// Haulm, moisture and what lies flat make the drum lose more here and less there than feed alone says. How many
// hits a kg brings nobody knows: only how the hits for each kg expected differ from their long mean counts, so
// that the sensor cannot lead the curve's level astray.
class LossExcess {
  public:
    // Crop went by: what was heard fades.
    void walk(Real distance_m);

    // A block of hits, beside what the curve let expect over it.
    void hear(Real hits_per_s, Real block_s, Real expected_kgps);

    [[nodiscard]] bool heard() const { return blocks_ > 0; }
    // ln of the hazard here over the curve's, and its standard deviation; 0 where no sensor speaks.
    [[nodiscard]] Real ln_excess() const { return excess_; }
    [[nodiscard]] Real sd() const;
    // ln(hits for each kg lost by the curve), in the long mean.
    [[nodiscard]] Real ln_hits_per_kg() const { return ln_gain_; }

  private:
    Real excess_ = Real(0);
    Real fade_ = Real(1);  // variance over that of a place not heard of
    Real ln_gain_ = Real(0);
    int blocks_ = 0;
};

}  // namespace podrate
