// What each piece of swath gave, with the drum's delay put back to where the crop stood.
#pragma once

#include <vector>

#include "geo/place.hpp"
#include "replay/sink.hpp"

namespace podrate::sim {

// A piece of swath of kPieceS of even harvest.
struct SwathPiece {
    double unix_s = 0.0;  // middle of it, when it was cut
    LatLon place;         // middle of it
    double area_m2 = 0.0;
    double area_rate_m2ps = 0.0;
    double passed_kgpm2 = 0.0;  // that reached the hopper
};

class SwathTrack : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }

    // Pieces of harvest without a break. The drum: dead time and lag, s; what a piece gave is taken from the
    // hopper's gain by so much later.
    [[nodiscard]] std::vector<SwathPiece> pieces(double dead_time_s, double lag_s) const;

  private:
    struct Second {
        double unix_s = 0.0;
        double harvested_kg = 0.0;
        double area_m2 = 0.0;
        LatLon place;
        bool placed = false;
        bool harvesting = false;
    };
    [[nodiscard]] bool even(std::size_t from, std::size_t to) const;
    std::vector<Second> seconds_;
    LatLon place_;
    double placed_s_ = 0.0;
    bool placed_ = false;
};

}  // namespace podrate::sim
