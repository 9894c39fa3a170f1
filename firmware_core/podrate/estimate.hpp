// What the estimator says now. Filled by Estimator::read().
#pragma once

#include <cstdint>

#include "podrate/advice/advice.hpp"
#include "podrate/real.hpp"
#include "podrate/sample.hpp"
#include "podrate/work/work_state.hpp"

namespace podrate {

// Bits of Estimate::faults.
enum Fault : std::uint8_t {
    kWeightMissing = 1,  // no weight for 3 s, or an outage has just ended
    kWeightStuck = 2,    // the reading, or that of one cell, repeats to the last digit while peas come
    kWeightJump =
        4,  // the weight jumped without a tip, or dropped out; the total is in doubt by half the jump
    kSpeedMissing = 8,    // no speed for longer than speed_hold_s: area stands still, flow from weight alone
    kIntakeUnclear = 16,  // the weight rises although speed and reel say no work: flow from weight alone
    kTiltDead = 32,       // the tilt repeats on a moving machine, or has fallen silent: taken as it was last
};

inline constexpr int kFaults = 6;

// "weight_missing", "weight_stuck", ... for bit `index`, 0 to kFaults - 1.
const char* name_of_fault(int index);

// A yield is meant as a mean over that much of a swath, m: what a few paces of rich or poor crop do within it
// nobody can see through a drum.
inline constexpr Real kYieldOverM = Real(5);

struct Estimate {
    TimeUs time_us = 0;
    bool started = false;  // false until the first weight: nothing below is known yet
    WorkState state = WorkState::stopped;
    std::uint8_t faults = 0;
    std::uint16_t alarms = 0;  // bit 1 << AlarmId of each that is to be shown

    Real mass_kg = Real(0);  // in the hopper
    Real mass_sd_kg = Real(0);
    Real flow_kgps = Real(0);  // peas into the hopper, after the drum
    Real flow_sd_kgps = Real(0);
    Real yield_kgpm2 = Real(0);     // peas reaching the hopper per area, of the crop cut a dead time ago
    Real yield_sd_kgpm2 = Real(0);  // as a mean over kYieldOverM of swath
    Real loss_share = Real(0);      // of collected + lost, at the present feed
    Real loss_low = Real(0);        // 90 % interval
    Real loss_high = Real(0);
    Real drum_loss_share = Real(0);  // the part of it that the drum loses
    Real drum_loss_low = Real(0);
    Real drum_loss_high = Real(0);
    Real picking_loss_share = Real(0);  // and what the reel leaves: trays alone tell of it
    Real picking_loss_low = Real(0);
    Real picking_loss_high = Real(0);
    Real ground_kgpm2 = Real(0);  // peas left on the ground per area where it cuts
    // How near the fold, where more crop taken in brings fewer peas: 1 is there, beyond it slower is faster.
    Real fold = Real(0);
    // Of what was unknown of the drum's loss beforehand, as ln: 0 nothing learnt, 1 all.
    Real loss_learnt = Real(0);
    Real speed_spread =
        Real(0);  // sd of ln(speed) over the last hours of work: what the weight can learn from
    std::uint16_t tray_checks = 0;  // taken so far
    bool loss_sensor = false;       // hits have come

    Real speed_mps = Real(0);
    Real harvested_kg = Real(0);  // since the run began
    Real harvested_sd_kg = Real(0);
    Real area_m2 = Real(0);  // harvested since the run began
    Real load_kg = Real(0);  // gathered since the last tip

    Real level_share = Real(0);         // mass over capacity
    Real distance_to_full_m = Real(0);  // at the crop's mean; negative where unknown
    Real time_to_full_s = Real(0);      // at the recent harvesting speed; negative where unknown
    Advice advice;                      // as of the last second of harvest
    TimeUs oldest_cut_us = 0;           // when the oldest peas in the hopper were cut; 0 where it is empty
};

}  // namespace podrate
