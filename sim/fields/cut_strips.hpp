// The ground that a machine's reel passed over, as strips of its width along its way.
#pragma once

#include <vector>

#include "fields/work_track.hpp"
#include "geo/place.hpp"

namespace podrate::sim {

// Across the way: its middle and the unit vector to the left of the machine.
struct Crossbar {
    TimeUs time_us = 0;
    LatLon middle;
    double left_east = 0.0;
    double left_north = 0.0;
};

// A stretch cut without a break.
struct CutStrip {
    double width_m = 0.0;
    std::vector<Crossbar> crossbars;  // two or more
};

// The place so far to the left of a crossbar's middle; negative is to the right.
LatLon beside(const Crossbar& bar, double left_m);

// A place that the rolled distance contradicts is passed over; where places are missing the machine is taken
// to have gone straight on, if the rolled distance says so. Places in between, no strip.
std::vector<CutStrip> cut_strips(const std::vector<WorkPoint>& points, double width_m);

}  // namespace podrate::sim
