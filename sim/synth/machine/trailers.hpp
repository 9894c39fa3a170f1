// The trailers that a gang tips into, and what they bring to the factory.
#pragma once

#include <cstdint>
#include <vector>

#include "synth/random.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

struct Delivery {
    double at_s = 0.0;  // at the factory's intake
    double peas_kg = 0.0;
};

class Trailers {
  public:
    Trailers(const ScenarioTrailers& told, std::uint64_t seed);

    // Whether tips need a trailer at all.
    [[nodiscard]] bool any() const { return !trailers_.empty(); }
    // One that stands free with room for that load, held for the next `for_s` seconds; -1 where there is
    // none.
    int take(double load_kg, double time_s, double for_s);
    // What was tipped into it. A full one leaves when it is no longer held.
    void fill(int trailer, double peas_kg);
    [[nodiscard]] const std::vector<Delivery>& deliveries() const { return deliveries_; }

  private:
    struct Trailer {
        double filled_kg = 0.0;
        double free_from_s = 0.0;  // under a tip, or on the road, until then
    };
    void send_off(Trailer& trailer, double from_s);

    ScenarioTrailers told_;
    Random random_;
    std::vector<Trailer> trailers_;
    std::vector<Delivery> deliveries_;
};

}  // namespace podrate::sim
