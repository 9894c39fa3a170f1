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

// Where a machine of that width went over so much ground in so much time; zeros where it did not work.
FieldWork field_work(double area_m2, double width_m, double harvesting_s, double in_field_s);
// The same over its whole day.
FieldWork field_work(const MachineResult& machine);

}  // namespace podrate::sim
