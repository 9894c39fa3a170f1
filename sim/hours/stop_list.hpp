// Stops: stretches without harvest that lasted, and what they cost.
#pragma once

#include <string>
#include <vector>

#include "hours/stretch_track.hpp"

namespace podrate::sim {

struct Stop {
    std::string machine;
    Stretch stretch;
    // Its length times what the machine gathers per second of harvest in the hours about it (WorkPace).
    // Not known where no log tells what the machine did, or it harvested nothing all day.
    bool forgone_known = false;
    double forgone_kg = 0.0;
};

// All stretches without harvest of at least that length, in order of time.
std::vector<Stop> stops_of(const std::string& machine, const std::vector<Stretch>& stretches, double least_s);

}  // namespace podrate::sim
