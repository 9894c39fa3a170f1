// The day's loss looked back at, with the whole gang: neighbours' bouts cross nearly the same crop at other
// speeds.
#pragma once

#include <vector>

#include "replay/day_replay.hpp"

namespace podrate::sim {

struct GangLoss {
    long pairs = 0;                   // of neighbouring pieces of swath, over all machines
    double pair_ln_sd = 0.0;          // how far the yields of two such pieces differ, as ln, loss taken off
    std::vector<LossSoFar> machines;  // in the order of the day's; as live where nothing can be added
};

// Takes the loss that each machine's live estimate ends with, trays and all, as what is known beforehand, and
// lets the pairs tell the rest: two neighbours' ln(yield) differ by the difference of their hazards, by what
// sets one machine's yields apart from another's, and by the crop. Knows the whole day, so it is no estimate
// for the cab.
GangLoss gang_loss(const Day& day, const DayResult& result);

}  // namespace podrate::sim
