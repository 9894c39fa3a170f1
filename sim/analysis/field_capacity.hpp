// Work rate of a machine in a field.
#pragma once

#include "replay/machine_replay.hpp"

namespace podrate::sim {

// ha/h = km/h x m x efficiency / 10 (University of Kentucky, AEN-73). Efficiency is a share, 0 to 1.
double field_capacity_ha_per_h(double speed_kmh, double width_m, double efficiency);

struct FieldWork {
    double speed_kmh = 0.0;  // mean while harvesting
    double efficiency =
        0.0;  // share of the time in the field spent harvesting; travel between fields not counted
    double capacity_ha_per_h = 0.0;  // what came of it
};

FieldWork field_work(const MachineResult& machine);

}  // namespace podrate::sim
