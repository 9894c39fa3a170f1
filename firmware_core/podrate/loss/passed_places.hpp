// Where crop was cut over the last quarter of an hour of work, so that a tray counted later finds its place.
#pragma once

#include <cstdint>

#include "podrate/loss/loss_belief.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

class PassedPlaces {
  public:
    // Called as crop passes; keeps a place now and then.
    void remember(const PassedPlace& place);

    // Fills `place` with the one cut nearest to `time_us`; false where none was within half a minute of it.
    // What passed there shows in the weight only some seconds later: the next place's figure counts as much.
    bool at(TimeUs time_us, PassedPlace& place) const;

  private:
    // Times by the millisecond after the first place: 49 days, and half the memory.
    struct Kept {
        std::uint32_t cut_ms = 0;
        Real area_rate_m2ps = Real(0);
        Real passed_kgpm2 = Real(0);
        Real ln_excess = Real(0);
    };
    static constexpr int kPlaces = 118;  // a quarter of an hour, with some to spare
    Kept places_[kPlaces];
    TimeUs first_us_ = 0;
    TimeUs newest_us_ = 0;
    int newest_ = 0;
    int kept_ = 0;
};

}  // namespace podrate
