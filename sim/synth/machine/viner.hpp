// One viner with its driver: where it goes and what it does there.
#pragma once

#include <vector>

#include "synth/land/path.hpp"
#include "synth/machine/day_events.hpp"
#include "synth/machine/driver.hpp"
#include "synth/machine/gang.hpp"
#include "synth/machine/viner_works.hpp"
#include "synth/random.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class Viner {
  public:
    // Scenario and gang must outlive it.
    Viner(const Scenario& scenario, const ScenarioMachine& machine, std::size_t place_in_gang, double dt_s,
          const Gang& gang);

    void step(double time_s, Gang& gang);

    [[nodiscard]] const VinerWorks& works() const { return works_; }
    [[nodiscard]] const VinerTruth& truth() const { return works_.truth(); }
    [[nodiscard]] const std::vector<TrueLoad>& loads() const { return works_.loads(); }

  private:
    enum class Phase {
        arriving,
        bout,
        headland,
        on_path,
        waiting,
        raising,
        pouring,
        lowering,
        paused,
        broken,
        resting,
        idle
    };

    void begin_phase(Phase phase, double for_s);
    void stand(Phase phase, double for_s);
    void take_events(double time_s);
    bool take_rest(double time_s);
    void drive(double time_s, Gang& gang);
    void drive_bout();
    void drive_headland(double time_s, Gang& gang);
    void drive_path();
    void next_bout(Gang& gang);
    void go_on(Gang& gang);
    void pour(double time_s, Gang& gang);
    bool may_tip(double time_s, Gang& gang);
    void set_state();
    [[nodiscard]] VinerTruth& now() { return works_.truth(); }

    const ScenarioMachine& machine_;
    DayEvents events_;
    double dt_s_;
    Random random_;
    Driver driver_;
    VinerWorks works_;

    Phase phase_ = Phase::arriving;
    double phase_left_s_ = 0.0;
    Phase after_stop_ = Phase::waiting;  // what begins once the machine stands
    double after_stop_s_ = 0.0;
    bool stopping_ = false;
    bool in_bout_ = false;  // a bout is begun and not finished

    Bout bout_;
    double bout_done_m_ = 0.0;
    Path path_;
    double path_done_m_ = 0.0;
    double path_speed_mps_ = 1.0;
    bool travelling_ = false;

    double tip_at_kg_ = 0.0;
    int trailer_ = -1;  // being tipped into
};

}  // namespace podrate::sim
