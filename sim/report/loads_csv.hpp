// loads.csv: the ledger of all loads of a day, machine by machine.
#pragma once

#include <string>

#include "replay/day_replay.hpp"

namespace podrate::sim {

std::string loads_csv(const DayResult& result);

// Lost share of a load, of collected + lost.
double loss_share_of(const Load& load);
// Minutes from the first cut to the tip.
double oldest_pea_min(const Load& load);
double yield_tpha_of(const Load& load);

}  // namespace podrate::sim
