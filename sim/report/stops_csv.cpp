#include "report/stops_csv.hpp"

#include "hours/stop_list.hpp"
#include "log/number.hpp"

namespace podrate::sim {

std::string stops_csv(const Day& day, const DayResult& result) {
    std::string text = "machine,start_unix_s,end_unix_s,state,lat_deg,lon_deg,seconds,forgone_kg\n";
    for (const MachineResult& machine : result.machines) {
        for (const Stop& stop : stops_of(machine.id, machine.stretches, day.hours.stop_least_s)) {
            const Stretch& s = stop.stretch;
            text += stop.machine + ',';
            append_fixed(text, static_cast<double>(s.start_us) / 1e6, 1);
            text += ',';
            append_fixed(text, static_cast<double>(s.end_us) / 1e6, 1);
            text += std::string(",") + name_of(s.kind) + ',';
            if (s.place_known) append_fixed(text, s.place.lat_deg, 7);
            text += ',';
            if (s.place_known) append_fixed(text, s.place.lon_deg, 7);
            text += ',';
            append_fixed(text, s.seconds(), 1);
            text += ',';
            if (stop.forgone_known) append_fixed(text, stop.forgone_kg, 1);
            text += '\n';
        }
    }
    return text;
}

}  // namespace podrate::sim
