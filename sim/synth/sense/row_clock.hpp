// When a machine's logger takes its rows: evenly, or nearly so.
#pragma once

#include "synth/random.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class RowClock {
  public:
    RowClock(const Scenario& scenario, const ScenarioMachine& machine);
    // Time of the next row, s from the scenario's start. Never decreases.
    [[nodiscard]] double next_s() const { return next_s_; }
    void advance();

  private:
    double rate_hz_;
    double jitter_s_;
    Random random_;
    long row_ = 0;
    double next_s_ = 0.0;
};

}  // namespace podrate::sim
