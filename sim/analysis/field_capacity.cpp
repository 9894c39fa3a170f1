#include "analysis/field_capacity.hpp"

namespace podrate::sim {

double field_capacity_ha_per_h(double speed_kmh, double width_m, double efficiency) {
    return speed_kmh * width_m * efficiency / 10.0;
}

FieldWork field_work(const MachineResult& machine) {
    FieldWork work;
    double in_field_s = 0.0;
    for (const double seconds : machine.seconds_by_state) in_field_s += seconds;
    in_field_s -= machine.seconds(WorkState::travelling);
    const double harvesting_s = machine.seconds(WorkState::harvesting);
    if (harvesting_s <= 0.0 || in_field_s <= 0.0) return work;
    const auto width_m = static_cast<double>(machine.parameters.width_m);
    work.speed_kmh = static_cast<double>(machine.last.area_m2) / width_m / harvesting_s * 3.6;
    work.efficiency = harvesting_s / in_field_s;
    work.capacity_ha_per_h = field_capacity_ha_per_h(work.speed_kmh, width_m, work.efficiency);
    return work;
}

}  // namespace podrate::sim
