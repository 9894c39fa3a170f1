// One viner with its driver: where it goes, what it does, what its hopper holds.
#pragma once

#include <vector>

#include "podrate/work/work_state.hpp"
#include "synth/land/path.hpp"
#include "synth/machine/day_events.hpp"
#include "synth/machine/driver.hpp"
#include "synth/machine/drum.hpp"
#include "synth/machine/gang.hpp"
#include "synth/random.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

struct TrueLoad {
    double start_s = 0.0;
    double end_s = 0.0;  // when peas began to leave the hopper
    double net_kg = 0.0;
};

// The truth at one moment.
struct VinerTruth {
    Pose pose;
    double speed_mps = 0.0;
    bool reel_on = false;
    WorkState state = WorkState::stopped;
    std::size_t field = 0;
    double mass_kg = 0.0;
    double flow_kgps = 0.0;
    double area_rate_m2ps = 0.0;
    double feed_kgps = 0.0;  // haulm and peas taken in
    double drum_load = 0.0;  // against the rated feed
    double standing_kgpm2 = 0.0;
    double loss_share = 0.0;
    double picking_loss_share = 0.0;  // of all standing peas, as the next: together they are the loss
    double drum_loss_share = 0.0;
    double drum_lost_kgps = 0.0;
    double lost_kgpm2 = 0.0;  // left on the ground where it cuts now
    double harvested_kg = 0.0;
    double area_m2 = 0.0;
    double cut_kg = 0.0;  // of what it cut so far, the peas that reach the hopper
    double lost_kg = 0.0;
};

class Viner {
  public:
    // Scenario and gang must outlive it.
    Viner(const Scenario& scenario, const ScenarioMachine& machine, std::size_t place_in_gang, double dt_s,
          const Gang& gang);

    void step(double time_s, Gang& gang);

    [[nodiscard]] const VinerTruth& truth() const { return truth_; }
    [[nodiscard]] const std::vector<TrueLoad>& loads() const { return loads_; }

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
    void meet_crop(double time_s);
    void drive(double time_s, Gang& gang);
    void drive_bout();
    void drive_headland(double time_s, Gang& gang);
    void drive_path();
    void next_bout(Gang& gang);
    void go_on(Gang& gang);
    void change_speed(double target_mps);
    void pour(double time_s, Gang& gang);
    bool may_tip(double time_s, Gang& gang);
    void set_state();
    [[nodiscard]] double through_blockage(double time_s, double flow_kgps);
    void lose_peas(double time_s);
    void leave_part(double time_s);

    const ScenarioMachine& machine_;
    DayEvents events_;
    Faults faults_;
    double held_in_drum_kg_ = 0.0;  // behind a blockage
    double dt_s_;
    Random random_;
    Driver driver_;
    Drum drum_;
    std::vector<SwathCrop> crops_;
    CropHere here_;
    Pose met_at_;  // where the crop was looked at last
    std::size_t met_field_ = 0;
    bool crop_met_ = false;
    VinerTruth truth_;
    std::vector<TrueLoad> loads_;

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
    double pour_total_kg_ = 0.0;
    double load_start_s_ = 0.0;
    double poured_kg_ = 0.0;
    const ScenarioFault* left_part_ = nullptr;  // the newest fault that a tip left peas for
};

}  // namespace podrate::sim
