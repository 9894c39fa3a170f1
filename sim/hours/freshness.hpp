// How old a load's peas are when it is tipped and when it comes to the intake.
#pragma once

#include <optional>
#include <vector>

#include "day/hours_keys.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct Freshness {
    std::uint32_t load = 0;
    TimeUs tipped_us = 0;
    double net_kg = 0.0;
    double traced_kg = 0.0;   // of it, peas whose coming the log saw
    double oldest_min = 0.0;  // from cutting to the tip
    // Half of the peas, by mass, are older. Not known where less than half the load was traced.
    std::optional<double> median_min;
    // At the intake, road_min after the tip, from what fresh_from names.
    double intake_oldest_min = 0.0;
    std::optional<double> intake_median_min;
    std::optional<double> over_limit;  // share of the peas older than fresh_limit_min there, 0 to 1
};

// Of each load, in order. Peas that came at a moment were cut the drum's dead time and lag earlier, as learnt
// by the end of the log.
std::vector<Freshness> freshness_of(const MachineResult& machine, const HoursKeys& keys);

}  // namespace podrate::sim
