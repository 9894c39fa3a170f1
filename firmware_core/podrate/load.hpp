// One hopper load, from one tip's end to the next.
#pragma once

#include <cstdint>

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

struct Load {
    std::uint32_t number = 0;    // 1, 2, ... in the order tipped
    std::uint32_t revision = 0;  // raised when a later part of the same tip is added
    TimeUs start_us = 0;         // end of the tip before, or the first weight of the log
    TimeUs end_us = 0;           // when the weight began to fall
    TimeUs closed_us = 0;        // when the emptied hopper had been weighed
    TimeUs first_cut_us = 0;     // when the oldest peas in it were cut
    std::int32_t lat_e7 = 0;     // where it was tipped
    std::int32_t lon_e7 = 0;
    bool place_known = false;
    Real net_kg = Real(0);     // what went into the trailer
    Real net_sd_kg = Real(0);  // standard deviation of that, calibration of the cells included
    Real area_m2 = Real(0);    // harvested while it was gathered
    Real lost_kg = Real(0);    // estimated loss over that area
};

}  // namespace podrate
