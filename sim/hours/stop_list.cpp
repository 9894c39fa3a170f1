#include "hours/stop_list.hpp"

#include "hours/work_pace.hpp"

namespace podrate::sim {

std::vector<Stop> stops_of(const std::string& machine, const std::vector<Stretch>& stretches,
                           double least_s) {
    const WorkPace pace(stretches);
    std::vector<Stop> stops;
    for (const Stretch& s : stretches) {
        if (s.kind == TimeKind::harvesting || s.seconds() < least_s) continue;
        Stop stop{machine, s};
        const std::optional<double> kgps =
            s.kind == TimeKind::no_log ? std::nullopt : pace.kgps_about(s.start_us, s.end_us);
        stop.forgone_known = kgps.has_value();
        stop.forgone_kg = s.seconds() * kgps.value_or(0.0);
        stops.push_back(stop);
    }
    return stops;
}

}  // namespace podrate::sim
