// How far the wheels' word about speed is off, learnt from the places passed.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"

namespace podrate {

// Wheels slip, and a tyre's radius changes with its load. Along a straight bout the distance between two
// places tells by how much. A leg that bends, a jump of the receiver or one that stands still gives a ratio
// that no slip explains: it is passed over.
class SlipWatch {
  public:
    // The wheels have turned so far with crop coming in, m, by their own word.
    void roll(Real wheel_m);
    // The machine turned, or stood without taking crop in: a new leg begins.
    void break_off() { leg_begun_ = false; }
    // WGS 84, 1e-7 degrees.
    void pass(std::int32_t lat_e7, std::int32_t lon_e7);

    // True speed over told.
    [[nodiscard]] Real factor() const { return factor_; }

    // Over a power cut; the leg under way is given up.
    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from);

  private:
    [[nodiscard]] Real distance_m(std::int32_t lat_e7, std::int32_t lon_e7) const;

    bool leg_begun_ = false;
    std::int32_t from_lat_e7_ = 0;
    std::int32_t from_lon_e7_ = 0;
    Real wheel_m_ = Real(0);
    Real factor_ = Real(1);
    Real variance_ = Real(-1);  // of the factor; negative: nothing learnt
};

}  // namespace podrate
