// What the estimator says now. Filled by Estimator::read().
#pragma once

#include <cstdint>

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
};

inline constexpr int kFaults = 5;

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

    Real mass_kg = Real(0);  // in the hopper
    Real mass_sd_kg = Real(0);
    Real flow_kgps = Real(0);  // peas into the hopper, after the drum
    Real flow_sd_kgps = Real(0);
    Real yield_kgpm2 = Real(0);     // peas reaching the hopper per area, of the crop cut a dead time ago
    Real yield_sd_kgpm2 = Real(0);  // as a mean over kYieldOverM of swath
    Real loss_share = Real(0);      // of collected + lost, at the present feed
    Real loss_low = Real(0);        // 90 % interval
    Real loss_high = Real(0);

    Real speed_mps = Real(0);
    Real harvested_kg = Real(0);  // since the run began
    Real harvested_sd_kg = Real(0);
    Real area_m2 = Real(0);  // harvested since the run began
    Real load_kg = Real(0);  // gathered since the last tip

    Real level_share = Real(0);         // mass over capacity
    Real distance_to_full_m = Real(0);  // at the crop's mean; negative where unknown
    Real time_to_full_s = Real(0);      // at the recent harvesting speed; negative where unknown
    TimeUs oldest_cut_us = 0;           // when the oldest peas in the hopper were cut; 0 where it is empty
};

}  // namespace podrate
