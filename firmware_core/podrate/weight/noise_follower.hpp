// How much the weight shakes, followed apart for a moving and a standing machine.
#pragma once

#include "podrate/parameters.hpp"
#include "podrate/real.hpp"
#include "podrate/retained/retained_state.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// Two things are followed, since vibration is not white: the spread of single readings (for gates and
// surprises) and what of it remains in averages over a second (for the filter's gain). A drum's tone at a few
// hertz fills the first and hardly touches the second.
class NoiseFollower {
  public:
    explicit NoiseFollower(const Parameters& parameters);

    // Variance of a single reading, kg2.
    [[nodiscard]] Real spread_kg2(bool moving) const { return of(moving).spread_kg2; }

    // Variance that a white noise would need to shake averages over a second as much, kg2 a reading. This is
    // the density near zero frequency times the rate of readings: what a filter slower than a second should
    // believe.
    [[nodiscard]] Real variance_kg2(bool moving) const { return of(moving).white_kg2; }

    // One reading of a quiet hopper (no tip, no jump). The spread is taken from one reading to the next, less
    // the peas that came between (flow), so that a filter gone wrong does not pass for noise.
    void learn(TimeUs time_us, bool moving, Real weight_kg, Real flow_kgps);

    void save(RetainedLearnt& to) const;
    void resume(const RetainedLearnt& from);

  private:
    struct Level {
        Real spread_kg2;
        Real white_kg2;
    };
    void learn_block(Level& level);
    void open_block(TimeUs time_us, bool moving);
    [[nodiscard]] const Level& of(bool moving) const { return moving ? moving_ : still_; }

    Level moving_;
    Level still_;
    TimeUs last_us_ = -kLatestUs;  // none yet, also for a clock that begins at 0
    Real last_kg_ = Real(0);
    TimeUs block_us_ = 0;  // start of the open block
    bool block_moving_ = false;
    int in_block_ = 0;
    Real first_kg_ = Real(0);  // the block's readings are summed as differences from this: no digits lost
    Real block_sum_kg_ = Real(0);
    int blocks_ = 0;  // closed one after another without a break
    Real before_last_kg_ = Real(0);
    Real last_mean_kg_ = Real(0);
};

}  // namespace podrate
