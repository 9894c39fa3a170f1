// Bootstrap over machines' days: each is drawn as a whole, since what happens within one hangs together.
#pragma once

#include <cstdint>
#include <vector>

#include "tune/tuning_figures.hpp"

namespace podrate::sim {

// The same seed gives the same draws whatever else is done; all settings meet the same draws, so that
// differences between them are paired.
class PlaceDraws {
  public:
    PlaceDraws(std::size_t places, std::size_t draws, std::uint64_t seed);

    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t places() const { return places_; }
    [[nodiscard]] PlaceTimes times(std::size_t draw) const {
        return PlaceTimes(times_).subspan(draw * places_, places_);
    }

  private:
    std::size_t places_;
    std::size_t count_;
    std::vector<int> times_;
};

}  // namespace podrate::sim
