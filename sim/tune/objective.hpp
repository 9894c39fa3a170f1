// One figure for how good a setting is.
#pragma once

#include <vector>

#include "tune/sweep.hpp"
#include "tune/tally.hpp"

namespace podrate::sim {

// What each is worth. Starting points, practice without a source: a false alarm an hour, or a median delay of
// twenty seconds, is as bad as missing a tenth of all that was to be told.
struct TuneWeights {
    double missed = 1.0;        // of the share missed
    double false_alarms = 0.1;  // 1/(1/h)
    double delay = 0.005;       // 1/s
};

// The alarms that a sweep is about: those that its parameters set; all, where one needs a replay.
std::vector<AlarmId> alarms_of_sweep(const std::vector<Swept>& sweep);

// `places`: one setting's tallies. Summed over them, then over the alarms; less is better. An alarm of which
// nobody knows what was to be told adds nothing.
double objective_of(const std::vector<MachineDayTally>& places, const std::vector<AlarmId>& alarms,
                    const TuneWeights& weights);

// The setting with the least objective; of several the first.
std::size_t best_setting(const TuneTable& table, const std::vector<AlarmId>& alarms,
                         const TuneWeights& weights);

}  // namespace podrate::sim
