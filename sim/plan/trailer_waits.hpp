// Waits for a trailer, as a machine's log shows them: from where it stands to tip until it tips.
#pragma once

#include <string>
#include <vector>

#include "replay/day_replay.hpp"

namespace podrate::sim {

struct TrailerWaits {
    std::string machine;
    std::size_t tips = 0;
    double waited_s = 0.0;  // in all, with raising the hopper
    double longest_s = 0.0;
    double cycle_s = 0.0;     // mean from tip to tip; 0 with fewer than two
    double forgone_kg = 0.0;  // waited_s at the machine's rate of harvest in the hour about (WorkPace)
};

struct HourWaits {
    TimeUs start_us = 0;           // a whole hour of UTC
    std::vector<double> waited_s;  // of each machine, in the order of trailer_waits()
};

// Of each usable machine.
std::vector<TrailerWaits> trailer_waits(const DayResult& result);
// The same seconds by the hour in which a wait began; hours without any are left out.
std::vector<HourWaits> waits_by_hour(const DayResult& result);

}  // namespace podrate::sim
