// How a driver chooses the speed: a liking that wanders, and an eye on what the machine has to swallow.
#pragma once

#include "synth/random.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class Driver {
  public:
    // `usual_kgpm`: haulm and peas along a metre of swath in the mean crop.
    Driver(const ScenarioDriver& driver, double usual_kgpm, std::uint64_t seed, const std::string& id);

    // The speed to go for now, m/s, in crop of `here_kgpm` along a metre that lies `lodged` flat (0 to 1).
    double wish_mps(double here_kgpm, double lodged, double dt_s);
    [[nodiscard]] double last_wish_mps() const { return wish_mps_; }

    // Another driver takes over, who likes another speed.
    void hand_over();

  private:
    ScenarioDriver told_;
    Random random_;
    double liking_mps_;
    double wander_ = 1.0;  // of the liking, as share
    double felt_;          // crop along a metre against the usual
    double wish_mps_;
    double usual_kgpm_;
};

}  // namespace podrate::sim
