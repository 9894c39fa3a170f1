// What a synthetic day's truth says that alarms had to tell.
#pragma once

#include <filesystem>

#include "day/day.hpp"
#include "score/true_faults.hpp"
#include "score/true_plant.hpp"
#include "tune/truth.hpp"

namespace podrate::sim {

// Whether the day's folder tells the truth of its machines.
bool has_truth(const std::filesystem::path& day_folder);

// From truth/. The limits are those of `machine` as they stand: a sweep changes what the alarms do, never
// what they had to tell. Throws RefusedInput where the truth is not whole.
MachineTruth true_episodes(const std::filesystem::path& day_folder, const Machine& machine);

// Of a plant, in true time. loss_high: score/loss_alarms. rate_low: the flow, a mean of ten seconds, under
// its limit for a minute of harvest. hopper_nearly_full, hopper_full: the true mass. peas_old: since the
// first peas were cut after a tip.
void add_plant_episodes(const TruePlant& plant, const Parameters& parameters, MachineTruth& truth);

// drum_blocking, hopper_leak and the sensors'. What shows only in a machine that harvests is due where it
// harvested for ten seconds of it; what no alarm is meant for, such as a drift, is a reason at most.
void add_fault_episodes(const std::vector<TrueFault>& faults, const TruePlant& plant, MachineTruth& truth);

}  // namespace podrate::sim
