// What is believed of the loss, and what a day leaves to the next.
#pragma once

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate {

// At one feed. The drum loses 1 - exp(-hazard) of what it takes in; ln of the hazard and ln of the picking
// share are taken as normal.
struct LossBelief {
    Real feed_kgps = Real(0);
    Real ln_hazard = Real(0);
    Real ln_hazard_variance = Real(0);
    Real picking_share = Real(0);  // of the peas standing
    Real ln_picking_variance = Real(0);
    Real covariance = Real(0);  // of the two logarithms
    Real fold = Real(0);        // hazard x feed / steepness: above 1 more crop brings fewer peas
};

// Where crop was cut, for a tray that is counted later.
struct PassedPlace {
    TimeUs cut_us = 0;
    Real area_rate_m2ps = Real(0);
    Real passed_kgpm2 = Real(0);  // peas that reached the hopper from there
    Real ln_excess = Real(0);     // of the drum's hazard there over the curve's, as the loss sensor told
};

// What a day has taught of a machine's loss, as differences from what was told, for the next one.
struct LossMemory {
    TimeUs time_us = 0;
    Real level = Real(0);  // of ln(hazard)
    Real level_variance = Real(0);
    Real ln_picking = Real(0);
    Real ln_picking_variance = Real(0);
    Real level_with_picking = Real(0);  // covariance
};

}  // namespace podrate
