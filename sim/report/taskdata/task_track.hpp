// What a machine did, second by second, for its time log.
#pragma once

#include <cstdint>
#include <vector>

#include "replay/sink.hpp"

namespace podrate::sim {

// At its time; distance since the second before. Small, since a day has 86,400.
struct TaskSecond {
    TimeUs time_us = 0;
    std::int32_t lat_e7 = 0;  // WGS 84
    std::int32_t lon_e7 = 0;
    float flow_kgps = 0.0F;
    float yield_kgpm2 = 0.0F;
    float loss_share = 0.0F;  // of collected + lost
    float idle_m = 0.0F;      // rolled without harvesting, travel not counted
    WorkState state = WorkState::stopped;
    bool placed = false;  // a place came in the last 2 s
};

class TaskTrack : public ReplaySink {
  public:
    // Fills `to`, which outlives it, with a row's figures at the first row of each second of the clock.
    explicit TaskTrack(std::vector<TaskSecond>& to) : seconds_(to) {}
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow& row) const override { return begins_second(row); }

  private:
    [[nodiscard]] bool begins_second(const LogRow& row) const;
    std::vector<TaskSecond>& seconds_;
    TaskSecond open_;
    TimeUs last_us_ = 0;
    TimeUs placed_us_ = 0;
    double idle_m_ = 0.0;
    bool any_ = false;
    bool any_place_ = false;
};

}  // namespace podrate::sim
