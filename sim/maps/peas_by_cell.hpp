// How much of a machine's peas was cut in each map cell, and how sure that is.
#pragma once

#include <vector>

#include "maps/swath_quads.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::sim {

struct CellPeas {
    double kg = 0.0;
    double variance_kg2 = 0.0;
    double lost_kg = 0.0;
    double lost_sd_kg = 0.0;  // cells share what is not known of the curve: these add up as they are
};

struct PeasByCell {
    std::vector<CellPeas> cells;  // as numbered in the grid; those beyond the end have none
    // Harvested and lost where no place, area or yield is known, so that cells and this add up to the
    // machine's totals. Below zero by a little where the cells came out too high.
    double unplaced_kg = 0.0;
    double unplaced_lost_kg = 0.0;
};

// The day is looked back at: what the weight told after a place was cut says more of it than what it told
// then, and takes the drum's delay and spread off again (H. E. Rauch, F. Tung & C. T. Striebel, AIAA Journal
// 3(8): 1445-1450, 1965). Along a swath errors hang together, and a cell's are added up as they do.
PeasByCell peas_by_cell(const MachineResult& machine, const SwathQuads& swath);

}  // namespace podrate::sim
