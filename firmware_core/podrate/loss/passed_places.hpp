// Where crop was cut over the last quarter of an hour of work, so that a tray counted later finds its place.
#pragma once

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
    static constexpr int kPlaces = 128;
    PassedPlace places_[kPlaces];
    int newest_ = 0;
    int kept_ = 0;
};

}  // namespace podrate
