#include "analysis/field_capacity.hpp"

#include "log/units.hpp"

namespace podrate::sim {

double field_capacity_ha_per_h(double speed_kmh, double width_m, double efficiency) {
    return speed_kmh * width_m * efficiency / 10.0;
}

FieldWork field_work(double area_m2, double width_m, double harvesting_s, double in_field_s) {
    FieldWork work;
    if (harvesting_s <= 0.0 || in_field_s <= 0.0) return work;
    work.speed_kmh = area_m2 / width_m / harvesting_s * kKmphPerMps;
    work.efficiency = harvesting_s / in_field_s;
    work.capacity_ha_per_h = field_capacity_ha_per_h(work.speed_kmh, width_m, work.efficiency);
    return work;
}

FieldWork field_work(const MachineResult& machine) {
    double in_field_s = 0.0;
    for (const double seconds : machine.seconds_by_state) in_field_s += seconds;
    in_field_s -= machine.seconds(WorkState::travelling);
    return field_work(static_cast<double>(machine.last.area_m2),
                      static_cast<double>(machine.parameters.width_m), machine.seconds(WorkState::harvesting),
                      in_field_s);
}

}  // namespace podrate::sim
