// A machine's way over the day, second by second: where it was, what it cut there and how long it took.
#pragma once

#include <cstdint>
#include <vector>

#include "geo/place.hpp"
#include "replay/sink.hpp"

namespace podrate::sim {

// The time since the point before, and where the machine stood at its end. Small, since a day has 86,400.
struct WorkPoint {
    TimeUs time_us = 0;
    std::int32_t lat_e7 = 0;  // WGS 84
    std::int32_t lon_e7 = 0;
    float area_m2 = 0.0F;      // cut since the point before: width times distance with the reel on
    float gained_kg = 0.0F;    // peas into the hopper since then
    float yield_kgpm2 = 0.0F;  // of the crop cut a dead time ago
    float harvesting_s = 0.0F;
    float in_field_s = 0.0F;  // with turning, waiting, tipping and standing; travel and silence not counted
    bool placed = false;      // false: no place came with it

    [[nodiscard]] LatLon place() const { return {1e-7 * lat_e7, 1e-7 * lon_e7}; }
};

class WorkTrack : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow& row) const override { return ends_point(row); }
    [[nodiscard]] std::vector<WorkPoint> take_points();

  private:
    [[nodiscard]] bool ends_point(const LogRow& row) const;
    std::vector<WorkPoint> points_;
    WorkPoint open_;
    bool any_ = false;
    TimeUs last_us_ = 0;
    WorkState last_state_ = WorkState::stopped;
    double area_m2_ = 0.0;  // at the newest point
    double harvested_kg_ = 0.0;
};

}  // namespace podrate::sim
