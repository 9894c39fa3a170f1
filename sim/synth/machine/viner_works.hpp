// What a viner does with crop and peas, whoever drives it: its speed, its drum, its hopper, and what goes
// wrong with them.
#pragma once

#include <vector>

#include "podrate/work/work_state.hpp"
#include "synth/land/path.hpp"
#include "synth/machine/drum.hpp"
#include "synth/machine/gang.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// Common practice, no source.
inline constexpr double kAcceleration = 0.5;  // m/s2
inline constexpr double kTurnSpeed = 1.3;     // m/s
inline constexpr double kTravelSpeed = 4.5;   // m/s, on the way to another field
inline constexpr double kJourneyM = 180.0;    // a way that long is driven as a journey
inline constexpr double kFarM = 120.0;        // so is one to a place that far off
inline constexpr double kRaiseS = 7.0;        // of a tip: the bin goes up, pours, and goes down
inline constexpr double kPourS = 32.0;
inline constexpr double kLowerS = 8.0;
inline constexpr double kFullShare = 0.97;  // of the hopper's capacity

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

class VinerWorks {
  public:
    // Scenario and gang must outlive it.
    VinerWorks(const Scenario& scenario, const ScenarioMachine& machine, double dt_s, const Gang& gang);

    [[nodiscard]] const VinerTruth& truth() const { return truth_; }
    // Whoever drives sets where it is, its reel and its state.
    [[nodiscard]] VinerTruth& truth() { return truth_; }
    [[nodiscard]] const CropHere& crop_here() const { return here_; }  // as met last
    [[nodiscard]] const std::vector<TrueLoad>& loads() const { return loads_; }
    // Peas picked and not in the hopper yet, those behind a blockage among them.
    [[nodiscard]] double in_drum_kg() const { return drum_.holds_kg() + held_in_drum_kg_; }
    // What left the hopper otherwise than by a tip.
    [[nodiscard]] double gone_kg() const { return gone_kg_; }

    // One step nearer to that speed.
    void change_speed(double target_mps);
    // One step of the works, after one of the drive: what is cut on a bout `cut_m` wide, threshed and lost.
    void step(double time_s, bool in_bout, double cut_m);

    // A tip begins that leaves so much behind, or what a fault leaves besides.
    void begin_pouring(double time_s, double left_kg);
    // One step of it; true in the last, which enters the load.
    bool pour(double time_s);
    [[nodiscard]] double poured_kg() const { return poured_kg_; }  // of the newest tip
    // What lies above that mass runs over the brim.
    void run_over(double brim_kg) { take_out(truth_.mass_kg - brim_kg); }

  private:
    [[nodiscard]] double through_blockage(double time_s, double flow_kgps);
    void lose_peas(double time_s);
    void take_out(double kg);
    void leave_part(double time_s);
    void meet_crop(double time_s, bool in_bout);

    Faults faults_;
    double width_m_;
    double dt_s_;
    Drum drum_;
    std::vector<SwathCrop> crops_;
    CropHere here_;
    Pose met_at_;  // where the crop was looked at last
    std::size_t met_field_ = 0;
    bool crop_met_ = false;
    VinerTruth truth_;
    double held_in_drum_kg_ = 0.0;  // behind a blockage
    double gone_kg_ = 0.0;
    std::vector<TrueLoad> loads_;
    double load_start_s_ = 0.0;
    double pour_total_kg_ = 0.0;
    double pour_left_s_ = 0.0;
    double poured_kg_ = 0.0;
    double left_part_at_s_ = -1.0;  // when the newest fault began that a tip left peas for
};

}  // namespace podrate::sim
