// A viner driven by hand: the plant's own works and field, with a person's orders instead of a driver's
// habits.
#pragma once

#include <cstdint>

#include "synth/land/path.hpp"
#include "synth/machine/gang.hpp"
#include "synth/machine/viner_works.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

enum class HandRefusal : std::uint8_t {
    none,
    tip_moving,     // a tip wants a standing machine
    tip_reel_on,    // ... and a lifted reel
    tip_empty,      // ... and something in the hopper
    tip_under_way,  // nothing else until the bin is down
    reel_turning,   // the reel goes down at the crop's edge
    field_done,     // no bout is left
};

class HandViner {
  public:
    static constexpr double kSpeedStep = 0.2 / 3.6;  // m/s with each order
    static constexpr int kMostSteps = 45;            // 9 km/h
    static constexpr double kBrimShare = 1.05;       // of the capacity: what is above runs over
    static constexpr double kLeastTipKg = 20.0;

    // Scenario, machine and gang must outlive it. Stands before the first bout, the reel lifted.
    HandViner(const Scenario& scenario, const ScenarioMachine& machine, double dt_s, Gang& gang);

    // Orders. An order refused changes nothing.
    HandRefusal change_wish(int steps);
    HandRefusal halt();   // brake, and stand
    HandRefusal go_on();  // at the speed wanted before, or at the usual one
    HandRefusal turn_reel();
    HandRefusal tip();

    void step(double time_s);

    [[nodiscard]] const VinerWorks& works() const { return works_; }
    [[nodiscard]] const VinerTruth& truth() const { return works_.truth(); }
    [[nodiscard]] double wanted_mps() const { return wanted_steps_ * kSpeedStep; }
    // At the bout's end with the reel still on: it has to be lifted before the machine turns.
    [[nodiscard]] bool reel_must_go_up() const { return ground_ == Ground::headland; }
    [[nodiscard]] bool turning() const { return ground_ == Ground::turn; }
    [[nodiscard]] bool field_done() const { return ground_ == Ground::done; }
    [[nodiscard]] double left_in_bout_m() const;  // 0 outside a bout
    [[nodiscard]] double tip_left_s() const;      // until the bin is down; 0 where it is
    [[nodiscard]] double passed_over_m2() const {
        return passed_over_m2_;
    }  // crop that stays, the reel lifted

  private:
    enum class Ground : std::uint8_t { bout, headland, turn, done };
    enum class Bin : std::uint8_t { down, rising, pouring, sinking };

    void run_bin(double time_s);
    void drive();
    void drive_bout();
    void roll_out();
    void drive_turn();
    void begin_turn();
    void set_state();
    [[nodiscard]] VinerTruth& now() { return works_.truth(); }

    const ScenarioMachine& machine_;
    double dt_s_;
    Gang& gang_;
    VinerWorks works_;
    int wanted_steps_ = 0;
    int steps_before_ = 14;  // 2.8 km/h; common practice, no source
    bool reel_on_ = false;
    Ground ground_ = Ground::bout;
    Bout bout_;
    double bout_done_m_ = 0.0;
    Path path_;
    double path_done_m_ = 0.0;
    bool travelling_ = false;
    Bin bin_ = Bin::down;
    double bin_left_s_ = 0.0;
    double passed_over_m2_ = 0.0;
};

}  // namespace podrate::sim
