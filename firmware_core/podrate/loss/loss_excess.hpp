// How much more or less the drum loses here than in the mean crop, as the loss sensor tells.
#pragma once

#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"

namespace podrate {

// A richer spot, haulm and moisture make the drum lose more here and less there than the mean crop at that
// speed. How many hits a kg brings nobody knows: only how the hits for each kg expected differ from their
// long mean counts, so that the sensor cannot lead the curve's level astray.
class LossExcess {
  public:
    // Crop went by: what was heard fades.
    void walk(Real distance_m);

    // A block of hits, beside what the curve lets expect of the mean crop over it.
    void hear(Real hits_per_s, Real block_s, Real expected_kgps);

    [[nodiscard]] bool heard() const { return blocks_ > 0; }
    // ln of the peas that the drum loses here per area over those in the mean crop, and its standard
    // deviation.
    [[nodiscard]] Real ln_ratio() const { return ratio_; }
    [[nodiscard]] Real sd() const;
    // ln(hits for each kg lost by the curve), in the long mean.
    [[nodiscard]] Real ln_hits_per_kg() const { return ln_gain_; }

    // The sensor's gain over a power cut; what it told of the crop here is not kept.
    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from);

  private:
    Real ratio_ = Real(0);
    Real fade_ = Real(1);  // variance over that of a place not heard of
    Real ln_gain_ = Real(0);
    int blocks_ = 0;
};

}  // namespace podrate
